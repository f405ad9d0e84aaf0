#include "src/life/weibull.h"

#include <cmath>

#include <gtest/gtest.h>

namespace hw::life {
namespace {

TEST(Weibull, OfShapeOneIsTheExponential) {
  const Weibull life{1, 250};
  EXPECT_NEAR(reliability(life, 250), std::exp(-1), 1e-15);
  EXPECT_NEAR(mean_life(life), 250, 1e-12);
  EXPECT_NEAR(life_spread(life), 250, 1e-10);
  EXPECT_NEAR(hazard(life, 17), 1.0 / 250, 1e-15);
  EXPECT_NEAR(mean_life_until(life, 100), 250 * -std::expm1(-0.4), 1e-10);
}

TEST(Weibull, QuantilesAndReliabilitiesAreEachOthersInverse) {
  for (const double shape : {0.4, 1.0, 2.3, 11.0}) {
    for (const double share : {1e-6, 0.1, 0.5, 0.999}) {
      const Weibull life{shape, 3000};
      EXPECT_NEAR(reliability(life, quantile(life, share)), 1 - share, 1e-12);
    }
  }
}

TEST(Weibull, OfASteepShapeKeepsTheDigitsOfItsSpread) {
  // For steep shapes the spread tends to scale pi / (sqrt(6) shape).
  EXPECT_NEAR(life_spread({1e5, 1}) * 1e5, std::numbers::pi / std::sqrt(6.0), 1e-4);
}

}  // namespace
}  // namespace hw::life
