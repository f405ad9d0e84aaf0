#include "libs/numerics/normal_tail.h"

#include <cmath>
#include <numbers>

#include <boost/math/special_functions/erf.hpp>

#include "libs/values/assert.h"

namespace hw::numerics {

double normal_below(double z) { return 0.5 * std::erfc(-z / std::numbers::sqrt2); }

double normal_quantile(double probability) {
  HW_ASSERT(probability > 0 && probability < 1, "a probability inside (0, 1)");
  return -std::numbers::sqrt2 * boost::math::erfc_inv(2 * probability);
}

double student_below(double t, double degrees) {
  HW_ASSERT(degrees > 0.5, "more than half a degree of freedom");
  return normal_below(t * (1 - 0.25 / degrees) / std::sqrt(1 + t * t / (2 * degrees)));
}

}  // namespace hw::numerics
