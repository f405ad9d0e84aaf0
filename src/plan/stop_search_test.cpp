#include "src/plan/stop_search.h"

#include <gtest/gtest.h>

#include "src/plan/draft_plan.h"
#include "src/plan/even_weights_test.h"
#include "src/plan/tiny_instance_test.h"

namespace hw::plan {
namespace {

// Machines in several cells whose tasks all need one scarce crew.
Instance one_crew_for_all() {
  numerics::Random random(11);
  std::vector<Machine> machines;
  for (int m = 0; m < 6; ++m) {
    std::vector<Task> tasks;
    for (int t = 0; t < 6; ++t) {
      tasks.push_back(chance_task("t" + std::to_string(t), random));
      tasks.back().first_latest_day.reset();
    }
    machines.push_back(machine_with("m" + std::to_string(m), tasks, 2));
    machines.back().cell = "c" + std::to_string(m / 2);
  }
  Instance instance = instance_with(machines, 21, 2);
  instance.cells.clear();
  for (int c = 0; c < 3; ++c) instance.cells.push_back({"c" + std::to_string(c), WeekTable<int>(7, {1, 1})});
  instance.crews[0].hours = every_shift(2, 5);
  return instance;
}

TEST(StopSearch, Property_WhatSeveralThreadsChooseFitsTogether) {
  const Instance instance = one_crew_for_all();
  const Model model = build_model(instance);
  const SlotWeights weights = even_weights(model);
  for (const std::size_t threads : {1, 2, 3, 5}) {
    StopSearch search(model, weights, threads, 1);
    const double before = search.best_cost();
    for (int i = 0; i < 20; ++i) {
      search.round(50, {20});
      const PlanVerdict verdict = evaluate_plan(instance, plan_of(instance, search.draft()));
      ASSERT_TRUE(verdict.problems.empty()) << threads << " threads: " << verdict.problems.front();
      ASSERT_NEAR(search.draft().cost(), verdict.cost.total(), 1e-6);
      ASSERT_LE(search.best_cost(), verdict.cost.total() + 1e-6);
    }
    EXPECT_LT(search.best_cost(), before);
    EXPECT_GT(search.work(), 0);
  }
}

}  // namespace
}  // namespace hw::plan
