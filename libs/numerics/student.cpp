#include "libs/numerics/student.h"

#include <boost/math/distributions/students_t.hpp>

#include "libs/values/assert.h"

namespace hw::numerics {

double student_above(double t, double degrees) {
  HW_ASSERT(degrees > 0, "degrees of freedom above 0");
  return boost::math::cdf(boost::math::complement(boost::math::students_t(degrees), t));
}

double student_quantile(double probability, double degrees) {
  HW_ASSERT(degrees > 0 && probability > 0 && probability < 1, "degrees above 0, a probability inside (0, 1)");
  return boost::math::quantile(boost::math::students_t(degrees), probability);
}

}  // namespace hw::numerics
