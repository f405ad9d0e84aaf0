#pragma once
// When one part has to be ordered for itself, and how much then.

#include <optional>

#include "src/kits/lot_costs.h"

namespace hw::kits {

// What ordering the part costs as such, and what a unit costs a day while it lies there.
struct OrderingTerms {
  double holding_per_unit_day = 0;
  double ordering = 0;  // the line and, at first, an order of its own
};

// Whether a part may wait beyond a day: with the wanted chance, and at no more cost a day than ordering comes to.
class WaitRule {
 public:
  explicit WaitRule(const StockCover& cover, double holding_per_unit_day);

  // Whether, with that position, an order of that day is early enough. False for all days after the first false.
  bool may_wait_until(int order_day, double position) const;
  // From here on also asks that waiting costs no more a day than this.
  void set_rate_max(double rate) { rate_max_ = rate; }
  bool weighs_cost() const { return missing_ > 0; }
  // Only by cost: up to this day more stock would cost more, whatever ordering costs.
  bool is_long_side(int order_day, double position) const;

 private:
  const StockCover* cover_;
  double holding_, missing_;
  std::optional<double> rate_max_;
};

// What may be ordered, and why not less.
struct QuantityRange {
  double least_needed = 0;               // so that tomorrow nothing has to be ordered again; not in whole packs
  double least = 0;                      // in whole packs and at least the minimum
  std::optional<double> shelf_life_max;  // the most, in whole packs, that is used within the shelf life
};

struct LineChoice {
  int last_day = 0;   // the last day on which it may be ordered; -1: that was before today
  int order_day = 0;  // for which the lots are priced: last_day, or today
  QuantityRange range;
  std::vector<Lot> lots;  // what may be ordered, rising; the first is range.least
};

// Nothing where the stock lasts to the end of the days ahead. A part with a rush cost is ordered before its last day
// where the hurry that waiting risks costs more than waiting saves.
std::optional<LineChoice> choose_line(const StockCover& cover, const OrderingTerms& terms);

// Of the lots the one with the least rate.
const Lot& cheapest(const std::vector<Lot>& lots, double ordering);

}  // namespace hw::kits
