#include "src/life/weibayes.h"

#include <algorithm>
#include <cmath>

#include "libs/numerics/gamma_tail.h"

namespace hw::life {

Result<AssumedShape> assume_shape(std::span<const Observed> lives, double shape, double conf) {
  AssumedShape assumed{.shape = shape};
  double oldest = 0;
  for (const Observed& life : lives) oldest = std::max(oldest, life.lower);
  double sum = 0;  // of (t / oldest)^shape, which can neither overflow nor vanish
  for (const Observed& life : lives) {
    if (!is_exact(life) && !is_suspended(life)) {
      return refuse(ErrorCode::bad_input, "an assumed shape needs exact ages of failures, not intervals");
    }
    (is_exact(life) ? assumed.failures : assumed.suspensions) += life.count;
    sum += life.count * (std::pow(life.lower / oldest, shape) - std::pow(life.entry / oldest, shape));
  }
  if (assumed.failures > 0) assumed.scale = oldest * std::pow(sum / assumed.failures, 1 / shape);
  const double quantile = numerics::chi_squared_quantile(conf, 2 * assumed.failures + 2);
  assumed.scale_lower = oldest * std::pow(2 * sum / quantile, 1 / shape);
  if (!(assumed.scale_lower > 0 && assumed.scale_lower < never)) {
    return refuse(ErrorCode::bad_input, "shape {}: the scale would be beyond all numbers", shape);
  }
  return assumed;
}

}  // namespace hw::life
