#include "src/kits/newsvendor.h"

#include <cmath>
#include <numbers>

#include "libs/numerics/normal_tail.h"
#include "libs/values/assert.h"
#include "src/kits/poisson.h"

namespace hw::kits {

double critical_ratio(const PeriodCosts& costs) {
  HW_ASSERT(costs.over > 0 && costs.under > 0, "costs above 0");
  return costs.under / (costs.over + costs.under);
}

// From the nearer tail, which keeps its digits.
PeriodStock newsvendor_normal(const PeriodCosts& costs, double mean, double sd) {
  const double ratio = critical_ratio(costs);
  const double z = ratio <= 0.5 ? numerics::normal_quantile(ratio)
                                : -numerics::normal_quantile(costs.over / (costs.over + costs.under));
  const double density = std::exp(-z * z / 2) / std::sqrt(2 * std::numbers::pi);
  return {mean + z * sd, (costs.over + costs.under) * sd * density, ratio};
}

PeriodStock newsvendor_poisson(const PeriodCosts& costs, double mean) {
  const double level = poisson_level(mean, critical_ratio(costs));
  const double cost = costs.over * poisson_left(mean, level) + costs.under * poisson_missing(mean, level);
  return {level, cost, poisson_below(mean, level)};
}

}  // namespace hw::kits
