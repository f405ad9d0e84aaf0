#include "libs/numerics/normal_tail.h"

#include <cmath>

#include <boost/math/distributions/normal.hpp>
#include <boost/math/distributions/students_t.hpp>
#include <gtest/gtest.h>

namespace hw::numerics {
namespace {

TEST(NormalTail, TheTableMatchesTheExactDistribution) {
  for (double z = -7; z <= 7; z += 0.003) EXPECT_NEAR(normal_below_fast(z), normal_below(z), 1e-9) << z;
}

TEST(NormalTail, TheExactDistributionMatchesBoost) {
  const boost::math::normal normal;
  for (const double z : {-5.0, -1.6448536269514722, -0.5, 0.0, 1.0, 3.0}) {
    EXPECT_NEAR(normal_below(z), boost::math::cdf(normal, z), 1e-15);
  }
  EXPECT_NEAR(normal_quantile(0.05), -1.6448536269514722, 1e-12);
}

TEST(NormalTail, StudentIsOffByLessThanItSays) {
  for (const double degrees : {4.0, 8.0, 30.0, 200.0}) {
    const boost::math::students_t student(degrees);
    for (double t = -6; t <= 6; t += 0.25) {
      EXPECT_NEAR(Student(degrees).below(t), boost::math::cdf(student, t), 0.0075) << degrees << " " << t;
    }
  }
}

TEST(NormalTail, TheLogarithmGoesOnWhereTheTailItselfIsTooSmall) {
  for (const double z : {-37.0, -20.0, -4.001, -3.999, -1.0, 0.0, 2.0}) {
    const double log_below = std::log(normal_below(z));
    EXPECT_NEAR(log_normal_below(z), log_below, 1e-12 * std::abs(log_below) + 1e-15) << z;
  }
  // -z^2 / 2 - log(z sqrt(2 pi)) + log(1 - 1 / z^2 + 3 / z^4): the asymptotic series, exact to 1e-11 out here.
  const double z = 100;
  const double series =
      -z * z / 2 - std::log(z * std::sqrt(2 * M_PI)) + std::log(1 - 1 / (z * z) + 3 / (z * z * z * z));
  EXPECT_NEAR(log_normal_below(-z), series, 1e-10);
}

}  // namespace
}  // namespace hw::numerics
