#include "libs/numerics/normal_tail.h"

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

// R 4.2.2: pnorm(z, lower = FALSE, log = TRUE), and dnorm / pnorm from logarithms.
TEST(NormalTail, TheFarTailMatchesPublished_R) {
  const double z[] = {3, 19.9, 20.1, 40};
  const double log_above[] = {-6.60772622151035, -201.917167707333, -205.927118401948, -804.608442013754};
  const double hazard[] = {3.28309865493043, 19.9500006143019, 20.1495079500773, 40.0249688472063};
  for (std::size_t n = 0; n < 4; ++n) {
    EXPECT_NEAR(log_normal_above(z[n]) / log_above[n], 1, 1e-12);
    EXPECT_NEAR(normal_hazard(z[n]) / hazard[n], 1, 1e-12);
  }
}

TEST(NormalTail, StudentIsOffByLessThanItSays) {
  for (const double degrees : {4.0, 8.0, 30.0, 200.0}) {
    const boost::math::students_t student(degrees);
    for (double t = -6; t <= 6; t += 0.25) {
      EXPECT_NEAR(Student(degrees).below(t), boost::math::cdf(student, t), 0.0075) << degrees << " " << t;
    }
  }
}

}  // namespace
}  // namespace hw::numerics
