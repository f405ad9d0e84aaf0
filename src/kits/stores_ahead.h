#pragma once
// The stores as a proposal needs them: what is there and ordered, what will be taken, and what ordering, holding and
// missing cost. Money in any one currency; quantities in each part's unit; days count from today, which is 0.

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "src/kits/lead_time.h"
#include "src/kits/needs.h"

namespace hw::kits {

struct OpenOrder {
  double quantity = 0;                   // still to come, above 0
  int age_days = 0;                      // since it was ordered, at least 0
  std::optional<int> confirmed_in_days;  // counted on for that day; where it has passed, judged by its age again
};

struct PartAhead {
  std::string key;
  double on_hand = 0;  // usable and not promised to others, at least 0; substitutes merged by the caller
  std::vector<OpenOrder> open;
  Needs needs;
  std::size_t supplier = 0;            // place in StoresAhead::suppliers
  std::size_t lead = 0;                // place in StoresAhead::leads
  double price = 0;                    // of a unit
  double pack = 1;                     // ordered in whole packs of so many units, above 0
  double minimum = 0;                  // units at least, where it is ordered
  std::optional<int> shelf_life_days;  // from the delivery
  double line_cost = 0;                // of one more line on an order
  double rush_cost = 0;                // of getting it in a hurry, once whenever it is missing
  double missing_cost_per_day = 0;     // of a unit that is missing, while it is
  double wanted = 0.95;                // the chance with which its needs are to be met from stock, in (0, 1)
};

struct Supplier {
  std::string key;
  double order_cost = 0;  // of an order, however many lines it has
};

struct StoresAhead {
  LocalDate today;
  int days = 365;                      // how far ahead needs are looked at, 30 to 1100
  double holding_rate_per_year = 0.2;  // share of the price, at least 0
  std::vector<LeadTime> leads;
  std::vector<Supplier> suppliers;
  std::vector<PartAhead> parts;
};

// What is wrong with it, named by part and field; nothing where it can be proposed for.
Result<void> check(const StoresAhead& stores);

}  // namespace hw::kits
