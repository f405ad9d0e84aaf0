#include "libs/numerics/grid_sum.h"

#include <array>

#include <gtest/gtest.h>

#include "libs/numerics/random.h"

namespace hw::numerics {
namespace {

TEST(GridSum, TwoDaysOfNothingOrEightHours) {
  const std::array<GridAmount, 2> day = {{{0, 0.5}, {8, 0.5}}};
  GridSum eight(8), sixteen(16);
  for (int n = 0; n < 2; ++n) eight.add(day), sixteen.add(day);
  EXPECT_DOUBLE_EQ(eight.reached(), 0.75);
  EXPECT_DOUBLE_EQ(sixteen.reached(), 0.25);
}

TEST(GridSum, AThresholdOfNothingIsReachedAtOnce) { EXPECT_EQ(GridSum(0).reached(), 1); }

TEST(GridSum, IsWhatASeededSimulationFinds) {
  const std::array<GridAmount, 3> day = {{{0, 0.3}, {3, 0.5}, {7, 0.2}}};
  GridSum sum(30);
  for (int n = 0; n < 10; ++n) sum.add(day);
  Random random(5);
  int reached = 0;
  constexpr int paths = 200'000;
  for (int path = 0; path < paths; ++path) {
    int total = 0;
    for (int n = 0; n < 10; ++n) {
      const double u = random.uniform();
      total += u < 0.3 ? 0 : u < 0.8 ? 3 : 7;
    }
    reached += total >= 30 ? 1 : 0;
  }
  EXPECT_NEAR(sum.reached(), reached / static_cast<double>(paths), 0.004);
}

TEST(GridSum, TheSharedStepIsTheLargestThatFits) {
  EXPECT_EQ(shared_step(std::array{8.0, 4.0, 0.0}), 1.0);
  EXPECT_EQ(shared_step(std::array{14.25, 620.0}), 0.25);
  EXPECT_EQ(shared_step(std::array{7.4, 0.1}), 0.1);
  EXPECT_FALSE(shared_step(std::array{1.0 / 3}));
}

}  // namespace
}  // namespace hw::numerics
