#include "src/plan/habits.h"

#include <gtest/gtest.h>

#include "src/plan/draft_plan.h"
#include "src/plan/tiny_instance_test.h"

namespace hw::plan {
namespace {

Slots days_by(Habit habit, const Instance& instance, TaskAt at) {
  return plan_by_habit(instance, build_model(instance), habit).slots_of(at);
}

// Due on day 5, then every 7 days; the second a week apart from it.
Instance two_tasks() {
  Task late = weekly_task("late");
  late.first_due_days = {8, 8, 8, 8, 8};
  return instance_with({machine_with("m", {weekly_task("soon"), late})}, 21);
}

TEST(Habits, DueDayDoesEachTaskWhenItFallsDue) {
  EXPECT_EQ(days_by(Habit::due_day, two_tasks(), {0, 0}), (Slots{5, 12, 19}));
  EXPECT_EQ(days_by(Habit::due_day, two_tasks(), {0, 1}), (Slots{8, 15}));
}

TEST(Habits, WithTheNextFourteenDaysTakesAlongWhatIsDueSoon) {
  EXPECT_EQ(days_by(Habit::with_next_14_days, two_tasks(), {0, 1}).front(), 5);
}

TEST(Habits, MonthlyServiceDoesRareTasksOnTheServiceDayBeforeTheyAreDue) {
  Task rare = weekly_task("rare");
  rare.first_due_days = {40, 40, 40, 40, 40};
  rare.cycle_days = {90, 90, 90, 90, 90};
  rare.max_gap_days = 200;
  EXPECT_EQ(days_by(Habit::monthly_service, instance_with({machine_with("m", {rare})}, 60), {0, 0}), (Slots{28}));
}

TEST(Habits, ADayWithoutRoomGivesWayToTheNearestThatHasIt) {
  Instance instance = two_tasks();
  instance.machines[0].blackouts = {{5, 5}};
  EXPECT_EQ(days_by(Habit::due_day, instance, {0, 0}).front(), 4);
}

TEST(Habits, WhatIsAgreedComesFirstAndTheNextIsCountedFromIt) {
  Instance instance = two_tasks();
  instance.machines[0].tasks[1].agreed = AgreedSlot{6, 0, std::nullopt};
  EXPECT_EQ(days_by(Habit::due_day, instance, {0, 1}), (Slots{6, 13, 20}));
}

TEST(Habits, Property_KeepAllLimits) {
  for (std::uint64_t seed = 1; seed <= 80; ++seed) {
    const Instance instance = seed % 2 == 0 ? chance_instance(seed) : chance_shop(seed);
    const Model model = build_model(instance);
    for (const Habit habit : {Habit::due_day, Habit::with_next_14_days, Habit::monthly_service}) {
      const Draft draft = plan_by_habit(instance, model, habit);
      if (!draft.tasks_without_place().empty()) continue;
      const PlanVerdict verdict = evaluate_plan(instance, plan_of(instance, draft));
      EXPECT_TRUE(verdict.problems.empty()) << seed << ": " << verdict.problems.front();
      EXPECT_NEAR(cost_of_habit(instance, model, habit).value_or(0), verdict.cost.total(), 1e-6);
    }
  }
}

}  // namespace
}  // namespace hw::plan
