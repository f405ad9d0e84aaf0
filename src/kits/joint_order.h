#pragma once
// Which parts of one supplier go on its next order. Each part has a last day of its own; the first of these sets the
// order's day. The others join in the order of their last days as long as that makes the supplier's orders cheaper by
// the day (Silver and Meal's rule (1973) over parts instead of periods; a heuristic):
//
//   (order cost + sum of holding what joins the longer) / (days until the next part has to be ordered)   is least

#include <cstddef>
#include <vector>

namespace hw::kits {

struct Joiner {
  int order_day = 0;         // its last day, at least 0
  double lasts_days = 0;     // from its own day on, with the lot that it would order
  double holding_a_day = 0;  // of that lot
};

struct JointOrder {
  int day = 0;
  std::size_t count = 0;  // the first so many of those given
  double saves = 0;       // a day, against ordering only what has to be; at least 0
};

// `joiners` in the order of their days, at least one; order_cost at least 0; `end` is beyond all days.
JointOrder join_order(const std::vector<Joiner>& joiners, double order_cost, int end);

}  // namespace hw::kits
