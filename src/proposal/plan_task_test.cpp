#include "src/proposal/plan_task.h"

#include "src/proposal/ahead_test.h"

namespace hw::proposal {
namespace {

constexpr int quarter_days = 84;

TEST(PlanTask, WithoutDatesItLosesNothingAndIsNeverDue) {
  const ShopAhead shop = small_shop();
  TaskAhead task = belt_task();
  task.due.clear();
  EXPECT_FALSE(has_dates(task));
  const plan::Task made = plan_task(shop, shop.machines[0], task, quarter_days);
  EXPECT_EQ(made.own_cost, 0);
  EXPECT_EQ(made.late_cost_per_day, 0);
  EXPECT_FALSE(made.first_latest_day);
  EXPECT_EQ(made.down_hours, 1) << "it takes its time all the same";
}

TEST(PlanTask, TasksDoneTogetherStandShorterThanTheyTakeAndAreDoneWithinThePlan) {
  const ShopAhead shop = small_shop();
  TaskAhead task = belt_task();
  task.due = due::on_calendar(day(5) + 80);
  task.joint = JointWork{{"belt", "chain"}, 40, {2.5, 0.1}, false};
  const plan::Task made = plan_task(shop, shop.machines[0], task, quarter_days);
  EXPECT_EQ(made.labour_hours, 1);
  EXPECT_DOUBLE_EQ(made.down_hours, 40.0 / 60);
  EXPECT_EQ(made.wear, 2.5);
  EXPECT_DOUBLE_EQ(made.late_cost_per_day, 0.05 * 60 + 0.1 * 80);
  EXPECT_EQ(*made.first_latest_day, quarter_days - 1);
}

TEST(PlanTask, AMachineWithoutAPriceOfItsOwnStandsForTheShops) {
  ShopAhead shop = small_shop();
  EXPECT_EQ(standing_of(shop, shop.machines[0]), 80);
  shop.machines[0].standing_per_hour = 120;
  EXPECT_EQ(standing_of(shop, shop.machines[0]), 120);
}

}  // namespace
}  // namespace hw::proposal
