#include "src/plan/shared_openings.h"

#include <gtest/gtest.h>

#include "src/plan/tiny_instance_test.h"

namespace hw::plan {
namespace {

// Two tasks that both want day 4 and nothing else: alone each would be given half of what the stop costs; together they
// pay all of it, so the bound is the cost of the plan.
TEST(SharedOpenings, TasksOfOneStopPayForItOnceTogether) {
  Task task = weekly_task("oil");
  task.first_earliest_day = 4;
  task.first_latest_day.emplace(4);
  Task other = task;
  other.id = "belt";
  const Model model = build_model(instance_with({machine_with("m", {task, other})}, 7));
  SharedOpenings openings(model, model.machines[0]);
  const std::vector<std::vector<float>> labour(1, std::vector<float>(7));
  const std::vector<float> places(7);
  Usage usage{{std::vector<double>(7)}, {std::vector<double>(7)}};
  const double bound = openings.relax(labour, places, usage);
  const TaskModel& made = model.machines[0].tasks[0];
  const double each = made.first_cost[4] + made.last_cost[4] + 0.5 * 20;
  EXPECT_NEAR(bound, 2 * each + 10 + 0.2 * 20, 1e-3);
  EXPECT_EQ(openings.route(0), (Slots{4}));
  EXPECT_NEAR(usage.crew_hours[0][4], 2, 1e-6);
}

}  // namespace
}  // namespace hw::plan
