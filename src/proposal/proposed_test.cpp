#include "src/proposal/proposed.h"

#include "src/proposal/ahead_test.h"

namespace hw::proposal {
namespace {

ProposedOptions quick(Moving moving = Moving::fixed) {
  ProposedOptions options;
  options.days = 42;
  options.moving = moving;
  options.effort_s = 0.3;
  return options;
}

Proposed propose_for(const ShopAhead& shop, Moving moving = Moving::fixed) {
  auto proposed = propose(shop, quick(moving));
  EXPECT_TRUE(proposed) << proposed.error().message;
  return proposed ? *std::move(proposed) : Proposed{};
}

TEST(Proposed, ThePlanKeepsAllLimitsAndItsCostIsWhatTheJudgeSays) {
  const ShopAhead shop = small_shop();
  const Proposed proposed = propose_for(shop);
  const StopInstance made = make_instance(shop, 42, Moving::fixed);
  const auto verdict = evaluate_plan(made.instance, proposed.plan);
  EXPECT_TRUE(verdict.problems.empty()) << verdict.problems.front();
  EXPECT_DOUBLE_EQ(verdict.cost.total(), proposed.then.cost.total());
  EXPECT_TRUE(proposed.without_place.empty());
}

TEST(Proposed, ItIsNeverDearerThanTheBestRuleAndNeverBelowItsBound) {
  const Proposed proposed = propose_for(small_shop());
  EXPECT_GE(proposed.saving(), 0);
  EXPECT_LE(proposed.bound, proposed.then.cost.total() + 1e-9);
  EXPECT_EQ(proposed.rules.size(), 3u);
  for (const RuleCost& rule : proposed.rules) {
    if (rule.without_place == 0) {
      EXPECT_GE(rule.cost, proposed.now.cost.total() - 1e-9);
    }
  }
}

TEST(Proposed, AgreedStopsStayWhereTheyAre) {
  ShopAhead shop = small_shop();
  shop.agreed = {agreed_stop(shop, "s1", "m1", day(11), {"belt"})};
  const Proposed proposed = propose_for(shop);
  for (const Difference& one : proposed.differences) {
    if (one.stop != "s1") continue;
    EXPECT_EQ(one.kind, DifferenceKind::changed) << "more tasks may come to it";
    EXPECT_EQ(one.to->on, day(11));
  }
}

TEST(Proposed, AtAPriceAStopOnABadDayMoves) {
  ShopAhead shop = small_shop();
  shop.stopping.moving = 1;
  shop.agreed = {agreed_stop(shop, "s1", "m1", day(6), {"belt"})};
  const Proposed proposed = propose_for(shop, Moving::priced);
  const auto moved = std::find_if(proposed.differences.begin(), proposed.differences.end(),
                                  [](const Difference& one) { return one.stop == "s1"; });
  ASSERT_NE(moved, proposed.differences.end());
  EXPECT_EQ(moved->kind, DifferenceKind::moved);
  EXPECT_EQ(*proposed.then.cost.moving, 1);
}

TEST(Proposed, TheSameShopGivesTheSameProposal) {
  const Proposed first = propose_for(small_shop());
  const Proposed second = propose_for(small_shop());
  EXPECT_EQ(first.then.cost.total(), second.then.cost.total());
  ASSERT_EQ(first.differences.size(), second.differences.size());
  for (std::size_t i = 0; i < first.differences.size(); ++i) {
    EXPECT_EQ(first.differences[i].key, second.differences[i].key);
  }
}

TEST(Proposed, WhatHasNoPlaceIsSaidWithTheLeastThatWouldHelp) {
  ShopAhead shop = small_shop();
  shop.machines[0].tasks[0].task.minutes = 600;  // longer than the shift
  shop.machines[0].tasks[0].task.assembly = "guards";
  const Proposed proposed = propose_for(shop);
  ASSERT_EQ(proposed.without_place.size(), 1u);
  EXPECT_EQ(proposed.without_place[0].machine, "m1");
  EXPECT_EQ(proposed.without_place[0].task, "belt");
  EXPECT_NE(proposed.without_place[0].says.text.find("cannot be placed"), std::string::npos);
  EXPECT_LE(proposed.bound, proposed.then.cost.total()) << "the others have a cost and a bound all the same";
  EXPECT_GT(proposed.bound, 0);
}

}  // namespace
}  // namespace hw::proposal
