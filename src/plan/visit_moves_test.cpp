#include "src/plan/visit_moves.h"

#include <gtest/gtest.h>

#include "src/plan/draft_plan.h"
#include "src/plan/even_weights_test.h"
#include "src/plan/stop_plan.h"
#include "src/plan/tiny_instance_test.h"

namespace hw::plan {
namespace {

// Two shops of three machines each, served by one crew that travels and one that does not.
Instance two_shops() {
  numerics::Random random(8);
  std::vector<Machine> machines;
  for (int m = 0; m < 6; ++m) {
    std::vector<Task> tasks;
    for (int t = 0; t < 6; ++t) {
      tasks.push_back(chance_task("t" + std::to_string(t), random));
      tasks.back().first_latest_day.reset();
      if (t % 2 == 0) tasks.back().crew = "service";
    }
    machines.push_back(machine_with("m" + std::to_string(m), tasks, 2));
    machines.back().place = m < 3 ? "east" : "west";
  }
  Instance instance = instance_with(machines, 28, 2);
  instance.crews[0].hours = every_shift(2, 12);
  instance.crews.push_back(instance.crews[0]);
  instance.crews[1].id = "service";
  for (auto& row : instance.crews[1].premium_per_hour) row[1] = 9;
  instance.crews[1].travel = {{"east", 150, 1.5}, {"west", 90, 2}};
  return instance;
}

Draft placed_draft(const Model& model) {
  Draft draft(model);
  for (int m = 0; m < 6; ++m) {
    for (int t = 0; t < 6; ++t) draft.place({m, t});
  }
  return draft;
}

TEST(VisitMoves, Property_LeaveAPlanThatKeepsAllLimitsAndCostsWhatTheDraftSays) {
  const Instance instance = two_shops();
  const Model model = build_model(instance);
  Draft draft = placed_draft(model);
  const SlotWeights weights = even_weights(model);
  VisitMoves moves(draft, weights, {0, 1, 2, 3, 4, 5});
  ASSERT_TRUE(moves.has_visits());
  numerics::Random random(3);
  int kept = 0;
  for (int i = 0; i < 1500; ++i) {
    const double before = draft.cost();
    const bool is_kept = moves.try_one({i % 2 == 0 ? 0.0 : 20.0}, random);
    kept += is_kept ? 1 : 0;
    EXPECT_TRUE((is_kept && i % 2 != 0) || draft.cost() <= before + 1e-6);
    if (i % 50 != 0) continue;
    const PlanVerdict verdict = evaluate_plan(instance, plan_of(instance, draft));
    ASSERT_TRUE(verdict.problems.empty()) << verdict.problems.front();
    ASSERT_NEAR(draft.cost(), verdict.cost.total(), 1e-5);
  }
  EXPECT_GT(kept, 20);
  EXPECT_GT(moves.work(), 0);
}

TEST(VisitMoves, MakeFewerVisitsWhereEachCostsMuch) {
  const Instance instance = two_shops();
  const Model model = build_model(instance);
  Draft draft = placed_draft(model);
  const SlotWeights weights = even_weights(model);
  VisitMoves moves(draft, weights, {0, 1, 2, 3, 4, 5});
  numerics::Random random(4);
  const double before = *evaluate_plan(instance, plan_of(instance, draft)).cost.travel;
  for (int i = 0; i < 4000; ++i) moves.try_one({i < 2000 ? 30.0 : 0.0}, random);
  EXPECT_LT(*evaluate_plan(instance, plan_of(instance, draft)).cost.travel, 0.9 * before);
}

TEST(VisitMoves, NobodyTravelsWhereNobodyHasTo) {
  Instance instance = two_shops();
  instance.crews[1].travel.reset();
  const Model model = build_model(instance);
  Draft draft(model);
  const SlotWeights weights = even_weights(model);
  EXPECT_FALSE(VisitMoves(draft, weights, {0, 1, 2, 3, 4, 5}).has_visits());
}

}  // namespace
}  // namespace hw::plan
