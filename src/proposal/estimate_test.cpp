#include "src/proposal/estimate.h"

#include <gmock/gmock.h>

#include "src/proposal/ahead_test.h"

namespace hw::proposal {
namespace {

StopEstimate estimate(const ShopAhead& shop, LocalDate on, std::vector<std::string> tasks = {"belt"},
                      std::optional<std::string> stop = {}) {
  auto made = estimate_stop(shop, {"m1", on, "early", std::move(tasks), std::move(stop)});
  EXPECT_TRUE(made) << made.error().message;
  return made ? *std::move(made) : StopEstimate{};
}

std::vector<std::string> codes(const StopEstimate& made) {
  std::vector<std::string> all;
  for (const Sentence& one : made.troubles) all.push_back(one.saying.code);
  return all;
}

TEST(Estimate, OnASaturdayStandingCostsNothingAndThePeopleMore) {
  const StopEstimate wednesday = estimate(small_shop(), day(18));
  const StopEstimate saturday = estimate(small_shop(), day(21));
  EXPECT_EQ(wednesday.figures.set_up, 60);
  EXPECT_DOUBLE_EQ(wednesday.figures.standing, 1.75 * 80);
  EXPECT_EQ(wednesday.figures.premium, 0);
  EXPECT_EQ(saturday.figures.standing, 0);
  EXPECT_EQ(saturday.figures.premium, 15);
  EXPECT_THAT(codes(wednesday), testing::IsEmpty());
  EXPECT_THAT(codes(saturday), testing::IsEmpty());
}

// What a plan of the one stop costs, but for what follows its tasks' cycles.
double plan_cost(const ShopAhead& shop, LocalDate on, const std::vector<std::string>& tasks) {
  const StopInstance made = instance_to_try(shop, 60);
  plan::StopPlan plan;
  plan.instance = made.instance.name;
  plan.stops = {{"m1", made.slots.day_of(on), 0, plan::EnergyState::locked, tasks}};
  const plan::PlanCost cost = evaluate_plan(made.instance, plan).cost;
  return cost.total() - cost.end;
}

TEST(Estimate, Property_MovingAStopChangesAPlanByTheDifferenceOfTheEstimates) {
  const ShopAhead shop = small_shop();
  const std::vector<std::string> tasks{"belt", "chain"};
  for (int from = 6; from <= 30; from += 3) {
    for (int to = 7; to <= 30; to += 5) {
      const double by_estimate =
          estimate(shop, day(to), tasks).figures.total() - estimate(shop, day(from), tasks).figures.total();
      EXPECT_NEAR(by_estimate, plan_cost(shop, day(to), tasks) - plan_cost(shop, day(from), tasks), 1e-9)
          << from << " to " << to;
    }
  }
}

TEST(Estimate, Property_TheChanceOfBeingDueEarlierOnlyRisesWithTheDay) {
  const ShopAhead shop = small_shop();
  double before = 0;
  for (int on = 5; on <= 31; ++on) {
    const double chance = estimate(shop, day(on)).figures.tasks.at(0).chance_due_before;
    EXPECT_GE(chance, before) << on;
    before = chance;
  }
  EXPECT_EQ(before, 1);
}

TEST(Estimate, WhatOtherStopsHaveOfTheCrewIsTakenAndTheStopThatMovesIsNot) {
  ShopAhead shop = small_shop();
  shop.agreed = {agreed_stop(shop, "s", "m1", day(9), {"belt", "chain"}),
                 agreed_stop(shop, "t", "m2", day(9), {"belt"})};
  const StopEstimate moved = estimate(shop, day(9), {"belt", "chain"}, "s");
  ASSERT_EQ(moved.figures.crews.size(), 1u);
  EXPECT_EQ(moved.figures.crews[0].has_hours, 2) << "of three, the other machine's stop has one";
  EXPECT_EQ(moved.figures.crews[0].overtime_hours, 0);
  EXPECT_THAT(codes(moved), testing::ElementsAre("cell-full")) << "one machine of the cell at once";
  EXPECT_THAT(codes(estimate(shop, day(9))), testing::IsSupersetOf({"task-in-stop"}));
}

TEST(Estimate, WhatStandsAgainstItIsSaid) {
  ShopAhead shop = small_shop();
  shop.calendar.closed = {{day(10), "holiday"}};
  shop.stopping.blackouts = {{"m1", {}, day(11), day(12), "hot order"}};
  shop.stopping.parts_awaited = {{"m1", "belt", day(18)}};
  shop.machines[0].tasks[1].task.minutes = 500;
  EXPECT_THAT(codes(estimate(shop, day(10))),
              testing::UnorderedElementsAre("plant-closed", "crew-short", "parts-late"));
  EXPECT_THAT(codes(estimate(shop, day(12))), testing::UnorderedElementsAre("machine-held", "parts-late"));
  EXPECT_THAT(codes(estimate(shop, day(18), {"chain"})), testing::UnorderedElementsAre("stop-too-long", "crew-short"));
  EXPECT_THAT(codes(estimate(shop, day(5), {"chain"})), testing::IsSupersetOf({"shift-begun"}));
}

TEST(Estimate, PartsAreSummedOverTheTasks) {
  const StopEstimate made = estimate(small_shop(), day(18), {"belt", "chain"});
  ASSERT_EQ(made.parts.size(), 1u);
  EXPECT_EQ(made.parts[0].quantity, 2);
}

TEST(Estimate, WhatCannotBeIsRefusedWithItsField) {
  const ShopAhead shop = small_shop();
  const auto refusal = [&](const StopTry& wanted) {
    const auto made = estimate_stop(shop, wanted);
    return made ? std::string{"nothing"} : made.error().message;
  };
  using testing::HasSubstr;
  EXPECT_THAT(refusal({"m9", day(18), "early", {"belt"}, {}}), HasSubstr("no machine \"m9\""));
  EXPECT_THAT(refusal({"m1", day(4), "early", {"belt"}, {}}), HasSubstr("on: 2026-03-04 is over"));
  EXPECT_THAT(refusal({"m1", day(5) + 400, "early", {"belt"}, {}}), HasSubstr("on: "));
  EXPECT_THAT(refusal({"m1", day(18), "night", {"belt"}, {}}), HasSubstr("shift: the plant has no shift \"night\""));
  EXPECT_THAT(refusal({"m1", day(18), "early", {}, {}}), HasSubstr("tasks: name one"));
  EXPECT_THAT(refusal({"m1", day(18), "early", {"belt", "belt"}, {}}), HasSubstr("twice"));
  EXPECT_THAT(refusal({"m1", day(18), "early", {"oil"}, {}}), HasSubstr("no task \"oil\""));
}

}  // namespace
}  // namespace hw::proposal
