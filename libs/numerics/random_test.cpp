#include "libs/numerics/random.h"

#include <gtest/gtest.h>

namespace hw::numerics {
namespace {

constexpr int draws = 100'000;

template <class Draw>
std::pair<double, double> mean_and_variance(Draw draw) {
  double sum = 0, squares = 0;
  for (int n = 0; n < draws; ++n) {
    const double x = draw();
    sum += x;
    squares += x * x;
  }
  return {sum / draws, squares / draws - sum * sum / draws / draws};
}

TEST(Random, OneSeedAlwaysGivesTheSame) {
  Random a(7), b(7), c(8);
  EXPECT_EQ(a.next(), b.next());
  EXPECT_NE(a.next(), c.next());
  // The first number of SplitMix64 from seed 0 (Vigna's reference code, from memory).
  EXPECT_EQ(Random(0).next(), 0xe220a8397b1dcdafU);
}

TEST(Random, NormalHasMeanZeroAndVarianceOne) {
  Random random(1);
  const auto [mean, variance] = mean_and_variance([&] { return random.normal(); });
  EXPECT_NEAR(mean, 0, 0.01);
  EXPECT_NEAR(variance, 1, 0.02);
}

TEST(Random, GammaHasItsShapeForMeanAndVariance) {
  for (const double shape : {0.3, 1.0, 7.5}) {
    Random random(2);
    const auto [mean, variance] = mean_and_variance([&] { return random.gamma(shape); });
    EXPECT_NEAR(mean, shape, 0.02 * shape + 0.01);
    EXPECT_NEAR(variance, shape, 0.05 * shape);
  }
}

TEST(Random, GeometricBeginsAtOneAndHasItsMean) {
  Random random(3);
  EXPECT_EQ(random.geometric(1), 1);
  const auto [mean, variance] = mean_and_variance([&] { return static_cast<double>(random.geometric(5)); });
  EXPECT_NEAR(mean, 5, 0.06);
  EXPECT_NEAR(variance, 20, 0.7);  // (1 - p) / p^2 with p = 1/5
}

TEST(Random, WholeNumbersReachBothEnds) {
  Random random(4);
  int least = 9, most = 0;
  for (int n = 0; n < 1000; ++n) {
    const int x = random.whole_between(2, 5);
    least = std::min(least, x);
    most = std::max(most, x);
  }
  EXPECT_EQ(least, 2);
  EXPECT_EQ(most, 5);
}

}  // namespace
}  // namespace hw::numerics
