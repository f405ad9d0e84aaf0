#include "libs/numerics/gamma_tail.h"

#include <boost/math/special_functions/gamma.hpp>

#include "libs/values/assert.h"

namespace hw::numerics {

double gamma_below(double shape, double x) {
  HW_ASSERT(shape > 0 && x >= 0, "a shape above 0 and x at least 0");
  return boost::math::gamma_p(shape, x);
}

double chi_squared_below(double x, double degrees) { return gamma_below(degrees / 2, x / 2); }

double chi_squared_above(double x, double degrees) {
  HW_ASSERT(degrees > 0 && x >= 0, "degrees of freedom above 0 and x at least 0");
  return boost::math::gamma_q(degrees / 2, x / 2);
}

double chi_squared_quantile(double probability, double degrees) {
  HW_ASSERT(probability > 0 && probability < 1 && degrees > 0, "a probability inside (0, 1), degrees above 0");
  return 2 * boost::math::gamma_p_inv(degrees / 2, probability);
}

}  // namespace hw::numerics
