#include "src/plan/cycle_cost.h"

#include <gtest/gtest.h>

#include "src/plan/tiny_instance_test.h"

namespace hw::plan {
namespace {

constexpr Fifths ten_days = {10, 10, 10, 10, 10};

TEST(CycleCost, IsNothingAtTheBestLengthAndAllOfItAtOnce) {
  const Task task = weekly_task("oil");
  EXPECT_NEAR(cycle_cost(task, 10, ten_days), 0, 1e-12);
  EXPECT_NEAR(cycle_cost(task, 0, ten_days), task.own_cost, 1e-12);
}

// r = 1.5, b = 2: 40 * (1 + 2.25 - 3) = 10; five days over of which one is tolerated: 4 * 5 = 20.
TEST(CycleCost, OfALateCycleIsWearAndLateness) { EXPECT_NEAR(cycle_cost(weekly_task("oil"), 15, ten_days), 30, 1e-12); }

TEST(CycleCost, OfAnOpenCycleCarriesOverWhatIsDue) {
  Task task = weekly_task("oil");
  task.carry_over_cost = 7;
  EXPECT_NEAR(open_cycle_cost(task, 4, ten_days), 0, 1e-12);
  EXPECT_NEAR(open_cycle_cost(task, 10, ten_days), 7, 1e-12);
  EXPECT_NEAR(open_cycle_cost(task, 15, ten_days), 37, 1e-12);
}

TEST(CycleCost, Property_RisesToBothSidesOfTheBestLength) {
  for (double wear = 1.2; wear < 5; wear += 0.4) {
    Task task = weekly_task("oil");
    task.wear = wear;
    for (int gap = 1; gap <= 30; ++gap) {
      const double here = cycle_cost(task, gap, ten_days);
      const double nearer = cycle_cost(task, gap < 10 ? gap + 1 : gap - 1, ten_days);
      EXPECT_TRUE(gap == 10 || here > nearer) << gap;
    }
  }
}

}  // namespace
}  // namespace hw::plan
