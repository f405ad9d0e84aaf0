#include "src/plan/model.h"

#include <gtest/gtest.h>

#include "src/plan/tiny_instance_test.h"

namespace hw::plan {
namespace {

TEST(Model, SlotsOfAShiftLieDayByDayAndDaysOffHaveNoHours) {
  Instance instance = instance_with({machine_with("m", {weekly_task("oil")}, 2)}, 9, 2);
  instance.crews[0].hours[1] = {3, 4};  // Tuesdays
  instance.crews[0].days_off = {8, 100};
  const Model model = build_model(instance);
  EXPECT_EQ(model.slots(), 18u);
  EXPECT_EQ(model.day_of(9 + 1), 1u);
  EXPECT_EQ(model.crews[0].hours[1], 3);
  EXPECT_EQ(model.crews[0].hours[9 + 1], 4);
  EXPECT_EQ(model.crews[0].hours_max[9 + 1], 5);
  EXPECT_EQ(model.crews[0].hours_max[8], 0);
}

TEST(Model, ClosedDaysHaveNoProductionAndNobodyAndAbsencesAreTakenFromTheHoursOffered) {
  Instance instance = instance_with({machine_with("m", {weekly_task("oil")}, 2)}, 9, 2);
  instance.closed_days = {4, 200};
  instance.crews[0].absent = {{3, 1, 0.5}, {3, 1, 1}, {6, 0, 9}};
  const Model model = build_model(instance);
  EXPECT_EQ(model.machines[0].loss_per_hour[4], 0);
  EXPECT_EQ(model.machines[0].loss_per_hour[5], 20);
  EXPECT_EQ(model.crews[0].hours_max[9 + 4], 0);
  EXPECT_EQ(model.crews[0].hours[9 + 3], 0.5);
  EXPECT_EQ(model.crews[0].hours_max[9 + 3], 1.5);
  EXPECT_EQ(model.crews[0].hours[6], 0);
  EXPECT_EQ(model.crews[0].hours_max[6], 1);
}

TEST(Model, TasksOfAPlaceToWhichTheirCrewTravelsArePartOfItsVisits) {
  Instance instance = instance_with({machine_with("a", {weekly_task("oil")}), machine_with("b", {weekly_task("oil")}),
                                     machine_with("c", {weekly_task("oil")})});
  instance.machines[0].place = "east";
  instance.machines[1].place = "west";
  instance.crews[0].travel = {{"west", 80, 1.5}, {"east", 40, 0}};
  for (auto& row : instance.crews[0].premium_per_hour) row[0] = 6;
  const Model model = build_model(instance);
  EXPECT_EQ(model.machines[0].tasks[0].visit, 1);
  EXPECT_EQ(model.machines[1].tasks[0].visit, 0);
  EXPECT_EQ(model.machines[2].tasks[0].visit, -1);
  EXPECT_EQ(model.visit_cost(model.visits[0], 3), 80 + 1.5 * 6);
}

TEST(Model, WhatMustNotBeIsForbidden) {
  Task task = weekly_task("oil");
  task.first_earliest_day = 2;
  task.first_latest_day.emplace(4);
  const TaskModel made = build_model(instance_with({machine_with("m", {task})}, 20)).machines[0].tasks[0];
  EXPECT_FALSE(is_allowed(made.first_cost[1]));
  EXPECT_TRUE(is_allowed(made.first_cost[2]));
  EXPECT_FALSE(is_allowed(made.first_cost[5]));
  EXPECT_FALSE(is_allowed(made.never_cost));
  EXPECT_FALSE(is_allowed(made.last_cost[7]));  // 12 days later the horizon is not over
  EXPECT_TRUE(is_allowed(made.last_cost[8]));
}

}  // namespace
}  // namespace hw::plan
