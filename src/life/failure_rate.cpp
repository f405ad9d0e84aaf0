#include "src/life/failure_rate.h"

#include <cmath>

#include "libs/numerics/gamma_tail.h"
#include "libs/values/assert.h"

namespace hw::life {

double mean_between_at_least(double total, double failures, WatchEnd end, double conf) {
  HW_ASSERT(total > 0 && failures >= (end == WatchEnd::at_a_failure ? 1 : 0), "time, and a failure that ends it");
  return 2 * total / numerics::chi_squared_quantile(conf, 2 * failures + (end == WatchEnd::at_a_time ? 2 : 0));
}

MeanBetween mean_between(double total, double failures, WatchEnd end, double conf) {
  if (failures == 0) return {std::nullopt, mean_between_at_least(total, 0, end, conf), std::nullopt};
  return {total / failures, mean_between_at_least(total, failures, end, 0.5 + 0.5 * conf),
          2 * total / numerics::chi_squared_quantile(0.5 - 0.5 * conf, 2 * failures)};
}

}  // namespace hw::life
