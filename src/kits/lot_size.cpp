#include "src/kits/lot_size.h"

#include <algorithm>
#include <cmath>

#include "libs/values/assert.h"
#include "src/kits/poisson.h"

namespace hw::kits {
namespace {

constexpr double lot_max = 1e6;

// g(y) = h E(y - D)+ + p E(D - y)+.
double position_cost(const ReorderTerms& terms, double y) {
  const double mean = terms.rate * terms.lead_time;
  if (y < 0) return terms.missing * (mean - y);
  return terms.holding * poisson_left(mean, y) + terms.missing * poisson_missing(mean, y);
}

double fill_rate(const ReorderPolicy& policy) {
  double sum = 0;
  for (double n = 1; n <= policy.lot; ++n) sum += poisson_below(policy.lead_time_mean, policy.reorder_at + n - 1);
  return sum / policy.lot;
}

}  // namespace

OrderQuantity economic_quantity(double order_cost, double rate, double holding) {
  HW_ASSERT(order_cost > 0 && rate > 0 && holding > 0, "costs and rate above 0");
  return {std::sqrt(2 * order_cost * rate / holding), std::sqrt(2 * order_cost * rate * holding)};
}

Result<ReorderPolicy> best_reorder_policy(const ReorderTerms& terms) {
  HW_ASSERT(terms.holding > 0 && terms.missing > 0 && terms.rate > 0 && terms.lead_time >= 0 && terms.order_cost >= 0,
            "costs and rate above 0");
  // What the lot comes to for even demand: the economic quantity, stretched by what is owed for a while.
  const double about =
      std::sqrt(2 * terms.order_cost * terms.rate / terms.holding * (1 + terms.holding / terms.missing));
  if (about > lot_max) {
    return refuse(ErrorCode::bad_input, "the lot that costs least is beyond {:.0f}: is h or K in another unit?",
                  lot_max);
  }
  const double mean = terms.rate * terms.lead_time;
  const double best = poisson_level(mean, terms.missing / (terms.holding + terms.missing));
  double low = best, high = best;  // the positions taken
  double sum = position_cost(terms, best);
  double below = position_cost(terms, low - 1), above = position_cost(terms, high + 1);
  const double ordering = terms.order_cost * terms.rate;
  while (std::min(below, above) * (high - low + 1) < ordering + sum) {
    if (below < above) {
      sum += below;
      below = position_cost(terms, --low - 1);
    } else {
      sum += above;
      above = position_cost(terms, ++high + 1);
    }
  }
  ReorderPolicy policy{low - 1, high - low + 1, 0, mean, 0};
  policy.cost_rate = (ordering + sum) / policy.lot;
  policy.fill_rate = fill_rate(policy);
  return policy;
}

}  // namespace hw::kits
