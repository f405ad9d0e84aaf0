#pragma once
// What to order, how much, and by when, for all parts of a shop at once; methods and limits: docs/methods/stores.md.
//
//   last day    the last day o on which P(D(o + L - 1) <= stock + open orders) >= wanted: an order made on it is there,
//               after its random lead time L, before the stock is used up, with the wanted chance
//   quantity    whole packs, at least the minimum, at least so many that tomorrow nothing has to be ordered again; of
//               those the one that costs least a day: (ordering + holding + missing) / days until the next order
//   together    parts of one supplier join an order as long as ordering and holding the longer cost less a day

#include "libs/values/sentence.h"
#include "src/kits/stores_ahead.h"

namespace hw::kits {

enum class When { late, today, later };

struct LineCosts {
  double purchase = 0;  // quantity * price
  double ordering = 0;  // the line and its share of the order
  double holding = 0;   // expected, of what is ordered until it is used or the days ahead end
  double missing = 0;   // expected until it is delivered: rush, and what missing units cost a day
};

struct OrderLine {
  std::size_t part = 0;  // place in StoresAhead::parts
  double quantity = 0;
  When when = When::later;
  LocalDate last_on;      // the last day on which it has to be ordered for itself; today where that has passed
  LocalDate short_on;     // the first day on which, without an order, the need is met with less than the wanted chance
  double chance_now = 0;  // that all needs up to `judged_until` are met if it is ordered today ...
  double chance_without = 0;  // ... and if it is not ordered
  LocalDate judged_until;     // short_on, or when an order of the last day would be there, whichever is later
  LineCosts costs;
  std::vector<Sentence> reasons;  // codes are those of `reason_codes`
};

struct ProposedOrder {
  std::size_t supplier = 0;
  When when = When::later;
  LocalDate order_on;  // the earliest last day of its lines: the whole order goes then
  double order_cost = 0;
  std::vector<OrderLine> lines;  // the most pressing first
};

// What is ordered would be enough, but may come too late: a second order would not help, asking the supplier might.
struct OrderToChase {
  std::size_t part = 0;
  double chance = 0;  // that the needs of the coming 28 days are met as things stand
  Sentence says;      // code "chase-open-order"
};

struct StoresProposal {
  std::vector<ProposedOrder> orders;  // by order_on, then by supplier; at most one for each supplier: its next
  std::vector<double> chances;        // of each part: that its needs of the coming 28 days are met as things stand
  std::vector<OrderToChase> to_chase;
};

// Refuses what `check` refuses. Parts whose stock lasts to the end of the days ahead are in no order.
Result<StoresProposal> propose(const StoresAhead& stores);

}  // namespace hw::kits
