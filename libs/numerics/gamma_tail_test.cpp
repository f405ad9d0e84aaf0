#include "libs/numerics/gamma_tail.h"

#include <cmath>

#include <gtest/gtest.h>

namespace hw::numerics {
namespace {

// Values of R 4.2.2: pchisq(3.84, 1), qchisq(0.95, 1), qchisq(0.025, 24), pgamma(2.5, 1.7).
TEST(GammaTail, MatchesPublished_R) {
  EXPECT_NEAR(chi_squared_below(3.84, 1), 0.949956478751295, 1e-12);
  EXPECT_NEAR(chi_squared_quantile(0.95, 1), 3.84145882069412, 1e-11);
  EXPECT_NEAR(chi_squared_quantile(0.025, 24), 12.4011502174444, 1e-10);
  EXPECT_NEAR(gamma_below(1.7, 2.5), 0.784461156276789, 1e-13);
}

TEST(GammaTail, TwoDegreesAreTheExponential) {
  for (const double x : {0.0, 0.1, 2.0, 40.0}) {
    EXPECT_NEAR(chi_squared_below(x, 2), -std::expm1(-x / 2), 1e-15);
    EXPECT_NEAR(chi_squared_above(x, 2) / std::exp(-x / 2), 1, 1e-13);
  }
}

}  // namespace
}  // namespace hw::numerics
