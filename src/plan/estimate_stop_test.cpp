#include "src/plan/estimate_stop.h"

#include <gmock/gmock.h>

#include "src/plan/stop_plan.h"
#include "src/plan/tiny_instance_test.h"

namespace hw::plan {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;

// Alone in its plan, a stop costs what the definitions say, but for the cycles that come after it.
TEST(EstimateStop, Property_CostsWhatThePlanOfThisStopAloneCosts) {
  for (std::uint64_t seed = 1; seed <= 60; ++seed) {
    SCOPED_TRACE(seed);
    const Instance instance = seed % 2 == 0 ? chance_shop(seed) : chance_travel(seed);
    const Machine& machine = instance.machines[0];
    const DayShift slot{static_cast<int>(seed % 6), static_cast<int>(seed % 2)};
    const auto estimate = estimate_stop(instance, {machine.id, slot, {"a", "b"}, {}});
    ASSERT_TRUE(estimate.has_value());
    StopPlan plan;
    plan.instance = instance.name;
    if (estimate->state != EnergyState::running) plan.stops = {{machine.id, slot.day, slot.shift, estimate->state, {}}};
    for (const Task& task : machine.tasks) {
      if (task.state != EnergyState::running) plan.stops[0].tasks.push_back(task.id);
      if (task.state == EnergyState::running) {
        plan.running_jobs.push_back({machine.id, slot.day, slot.shift, task.id});
      }
    }
    const PlanCost cost = evaluate_plan(instance, plan).cost;
    EXPECT_NEAR(estimate->set_up, cost.stops, 1e-9);
    EXPECT_NEAR(estimate->standing, cost.lost_production, 1e-9);
    EXPECT_NEAR(estimate->premium, cost.labour_premium, 1e-9);
    EXPECT_NEAR(estimate->overtime, cost.overtime, 1e-9);
    EXPECT_NEAR(estimate->timing(), cost.timing, 1e-9);
    EXPECT_NEAR(estimate->travel, cost.travel.value_or(0), 1e-9);
  }
}

TEST(EstimateStop, SaysHowEarlyAndLateEachTaskWouldBe) {
  const Instance instance = instance_with({machine_with("m", {weekly_task("oil")})});  // due on days 4 5 5 5 6
  const auto early = estimate_stop(instance, {"m", {4, 0}, {"oil"}, {}});
  EXPECT_NEAR(early->tasks[0].early_days, (3 * 1 + 2) / 5.0, 1e-12);
  EXPECT_NEAR(early->tasks[0].late_loss, 0, 1e-12);
  EXPECT_GT(early->tasks[0].early_loss, 0);
  EXPECT_EQ(early->tasks[0].best_day, 5);
  const auto late = estimate_stop(instance, {"m", {6, 0}, {"oil"}, {}});
  EXPECT_NEAR(late->tasks[0].chance_due_before, 0.8, 1e-12);
  EXPECT_NEAR(late->tasks[0].late_days, (2 + 3 * 1) / 5.0, 1e-12);
  EXPECT_GT(late->tasks[0].late_loss, late->tasks[0].best_loss);
}

TEST(EstimateStop, CountsWhatOthersHaveOfACrew) {
  const Instance instance = instance_with({machine_with("m", {weekly_task("oil")})});  // 2 h and 1 h of overtime
  const auto estimate = estimate_stop(instance, {"m", {1, 0}, {"oil"}, {{"fitters", 1.5}}});
  EXPECT_EQ(estimate->crews[0].has_hours, 0.5);
  EXPECT_EQ(estimate->overtime, 0.5 * 30);
  EXPECT_TRUE(estimate->troubles.empty());
  const auto none_left = estimate_stop(instance, {"m", {1, 0}, {"oil"}, {{"fitters", 3}}});
  EXPECT_THAT(none_left->troubles, ElementsAre(HasSubstr("crew fitters has 0 h, not 1")));
}

TEST(EstimateStop, TellsTheVisitThatItOpensOrShares) {
  Instance instance = instance_with({machine_with("m", {weekly_task("oil")})});  // 2 h and 1 h of overtime
  instance.machines[0].place = "east";
  instance.crews[0].travel = {{"east", 80, 1.5}};
  const auto opened = estimate_stop(instance, {"m", {5, 0}, {"oil"}, {}});
  EXPECT_EQ(opened->travel, 80);
  EXPECT_EQ(opened->crews[0].wants_hours, 2.5);
  EXPECT_EQ(opened->overtime, 0.5 * 30);
  EXPECT_FALSE(opened->crews[0].shares_visit);
  const auto shared = estimate_stop(instance, {"m", {5, 0}, {"oil"}, {{"fitters", 1.5}}, {"fitters"}});
  EXPECT_TRUE(shared->crews[0].shares_visit);
  EXPECT_EQ(shared->travel, 0);
  EXPECT_NEAR(opened->total() - shared->total(), 80, 1e-9);
}

TEST(EstimateStop, TellsWhatStandsAgainstTheSlot) {
  Instance instance =
      instance_with({machine_with("m", {weekly_task("oil"), weekly_task("noise", EnergyState::running)})});
  instance.closed_days = {3};
  instance.machines[0].blackouts = {{2, 2}};
  instance.machines[0].tasks[0].agreed = AgreedSlot{1, 0, std::nullopt};
  EXPECT_THAT(estimate_stop(instance, {"m", {2, 0}, {"oil"}, {}})->troubles,
              ElementsAre(HasSubstr("fixed for day 1"), HasSubstr("must not be stopped on day 2")));
  EXPECT_THAT(estimate_stop(instance, {"m", {3, 0}, {"noise"}, {}})->troubles,
              ElementsAre(HasSubstr("needs m in production"), HasSubstr("crew fitters has 0 h")));
  EXPECT_FALSE(estimate_stop(instance, {"m", {7, 0}, {}, {}}).has_value());
  EXPECT_FALSE(estimate_stop(instance, {"m", {1, 0}, {"belt"}, {}}).has_value());
  EXPECT_FALSE(estimate_stop(instance, {"saw", {1, 0}, {}, {}}).has_value());
}

}  // namespace
}  // namespace hw::plan
