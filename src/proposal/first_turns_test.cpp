#include "src/proposal/first_turns.h"

#include "src/proposal/ahead_test.h"
#include "src/proposal/stop_instance.h"

namespace hw::proposal {
namespace {

TEST(FirstTurns, TheEarliestExecutionCountsAndSharesItsOpening) {
  const StopInstance made = make_instance(small_shop(), 28, Moving::fixed);
  plan::StopPlan plan;
  plan.stops = {{"m1", 20, 0, plan::EnergyState::locked, {"belt"}},
                {"m1", 6, 0, plan::EnergyState::locked, {"belt", "chain"}}};
  const FirstTurns turns = first_turns(made.instance, plan);
  EXPECT_EQ(turns.at({"m1", "belt"}).slot->day, 6);
  EXPECT_FALSE(turns.at({"m2", "belt"}).slot);
  const double alone = first_turns(made.instance, {{}, {}, {}, {}, {plan.stops[0]}, {}}).at({"m1", "belt"}).cost;
  EXPECT_GT(alone, 60) << "all of the opening";
  EXPECT_DOUBLE_EQ(standing_hours(made.instance, plan), 2 * 0.75 + 3);
}

// Apart from overtime and what follows, the turns of a plan of one stop are what the plan costs.
TEST(FirstTurns, Property_SumToTheCostOfThePlan) {
  ShopAhead shop = small_shop();
  shop.machines[0].tasks[0].task.skill = catalogue::Skill::outside_service;
  shop.machines[0].tasks[1].task.skill = catalogue::Skill::outside_service;
  shop.stopping.outside_visit = catalogue::OutsideVisit{.hours = 1, .cost = 90};
  const StopInstance made = make_instance(shop, 28, Moving::fixed);
  for (int day = 1; day < 20; ++day) {
    plan::StopPlan plan;
    plan.instance = made.instance.name;
    plan.stops = {{"m1", day, 0, plan::EnergyState::locked, {"belt", "chain"}}};
    const plan::PlanCost cost = evaluate_plan(made.instance, plan).cost;
    const FirstTurns turns = first_turns(made.instance, plan);
    const double sum = turns.at({"m1", "belt"}).cost + turns.at({"m1", "chain"}).cost;
    EXPECT_NEAR(sum, cost.total() - cost.end - cost.overtime, 1e-9) << day;
  }
}

}  // namespace
}  // namespace hw::proposal
