#include "src/proposal/differences.h"

#include <gmock/gmock.h>

#include "src/proposal/ahead_test.h"
#include "src/proposal/reasons.h"

namespace hw::proposal {
namespace {

constexpr int four_weeks = 28;

// Plans of stops in the early shift.
struct Planned {
  std::string machine;
  LocalDate on;
  std::vector<std::string> tasks;
};

plan::StopPlan plan_with(const StopInstance& made, const std::vector<Planned>& stops) {
  plan::StopPlan plan;
  plan.instance = made.instance.name;
  for (const Planned& one : stops) {
    plan.stops.push_back({one.machine, made.slots.day_of(one.on), 0, plan::EnergyState::locked, one.tasks});
  }
  return plan;
}

std::vector<Difference> compare(const ShopAhead& shop, const std::vector<Planned>& now,
                                const std::vector<Planned>& then) {
  const StopInstance made = make_instance(shop, four_weeks, Moving::priced);
  const plan::StopPlan by_rule = plan_with(made, now);
  const plan::StopPlan proposed = plan_with(made, then);
  return differences_of(shop, made, {by_rule, proposed});
}

const std::vector<Planned> apart{{"m1", day(18), {"belt"}}, {"m1", day(19), {"chain"}}, {"m2", day(20), {"belt"}}};

TEST(Differences, WhatNobodyAgreedIsNewWithAllItsTasks) {
  const auto all = compare(small_shop(), apart, {{"m1", day(21), {"belt", "chain"}}, {"m2", day(14), {"belt"}}});
  ASSERT_EQ(all.size(), 2u);
  EXPECT_EQ(all[0].machine, "m2") << "by day";
  const Difference& both = all[1];
  EXPECT_EQ(both.kind, DifferenceKind::made);
  EXPECT_EQ(both.key, "m1@2026-03-21/early");
  EXPECT_EQ(both.tasks, (std::vector<std::string>{"belt", "chain"}));
  EXPECT_DOUBLE_EQ(both.minutes, 45 + 120);
  EXPECT_GT(both.saving, 2 * 80) << "one isolation less, and the standing of a Saturday";
}

TEST(Differences, AnAgreedStopIsMovedChangedDroppedOrLeftAlone) {
  ShopAhead shop = small_shop();
  shop.agreed = {agreed_stop(shop, "s1", "m1", day(18), {"belt"}), agreed_stop(shop, "s2", "m2", day(20), {"belt"})};
  EXPECT_TRUE(compare(shop, apart, {{"m1", day(18), {"belt"}}, {"m2", day(20), {"belt"}}}).empty());

  const auto moved = compare(shop, apart, {{"m1", day(21), {"belt"}}, {"m2", day(20), {"belt"}}});
  ASSERT_EQ(moved.size(), 1u);
  EXPECT_EQ(moved[0].kind, DifferenceKind::moved);
  EXPECT_EQ(moved[0].stop, "s1");
  EXPECT_EQ(moved[0].version, 1);
  EXPECT_EQ(moved[0].from->on, day(18));
  EXPECT_EQ(moved[0].to->on, day(21));

  const auto changed = compare(shop, apart, {{"m1", day(18), {"belt", "chain"}}, {"m2", day(20), {"belt"}}});
  ASSERT_EQ(changed.size(), 1u);
  EXPECT_EQ(changed[0].kind, DifferenceKind::changed);
  EXPECT_EQ(changed[0].tasks.size(), 2u);

  const auto dropped = compare(shop, apart, {{"m1", day(18), {"belt"}}});
  ASSERT_EQ(dropped.size(), 1u);
  EXPECT_EQ(dropped[0].kind, DifferenceKind::dropped);
  EXPECT_EQ(dropped[0].stop, "s2");
  EXPECT_FALSE(dropped[0].to);
}

TEST(Differences, TwoAgreedStopsThatBecomeOneAreOneMovedAndOneDropped) {
  ShopAhead shop = small_shop();
  shop.agreed = {agreed_stop(shop, "s1", "m1", day(18), {"belt"}), agreed_stop(shop, "s2", "m1", day(19), {"chain"})};
  const auto all = compare(shop, apart, {{"m1", day(19), {"belt", "chain"}}});
  ASSERT_EQ(all.size(), 2u);
  EXPECT_EQ(all[0].kind, DifferenceKind::dropped);
  EXPECT_EQ(all[1].kind, DifferenceKind::moved);
}

TEST(Differences, WhatIsDoneWhileTheMachineRunsStaysWithItsStop) {
  ShopAhead shop = small_shop();
  shop.machines[0].tasks[1].task.energy = catalogue::EnergyState::in_production;
  shop.agreed = {agreed_stop(shop, "s1", "m1", day(18), {"belt", "chain"})};
  EXPECT_TRUE(compare(shop, apart, {{"m1", day(18), {"belt"}}}).empty());
  const auto moved = compare(shop, apart, {{"m1", day(17), {"belt"}}});
  ASSERT_EQ(moved.size(), 1u);
  EXPECT_THAT(moved[0].tasks, testing::UnorderedElementsAre("belt", "chain"));
}

TEST(Differences, TheTasksOfAStopThatHasItsDayWaitUntilItIsClosed) {
  ShopAhead shop = small_shop();
  shop.agreed = {agreed_stop(shop, "s1", "m1", day(4), {"belt"})};
  const auto all = compare(shop, {}, {{"m1", day(26), {"belt", "chain"}}});
  ASSERT_EQ(all.size(), 1u);
  EXPECT_EQ(all[0].tasks, (std::vector<std::string>{"chain"}));
  EXPECT_TRUE(compare(shop, {}, {{"m1", day(26), {"belt"}}}).empty());
}

TEST(Differences, LaterExecutionsAreAnOutlookAndNoDifference) {
  const auto all = compare(small_shop(), apart, {{"m1", day(9), {"belt"}}, {"m1", day(27), {"belt"}}});
  ASSERT_EQ(all.size(), 1u);
  EXPECT_EQ(all[0].to->on, day(9));
}

std::vector<std::string> reasons_of(const ShopAhead& shop, const std::vector<Planned>& then) {
  std::vector<std::string> codes;
  for (const Difference& one : compare(shop, apart, then)) {
    EXPECT_LE(one.reasons.size(), reasons_max);
    for (const Sentence& reason : one.reasons) codes.push_back(reason.saying.code);
  }
  return codes;
}

TEST(Reasons, SharingAndAFreeSaturdayAreSaid) {
  EXPECT_THAT(reasons_of(small_shop(), {{"m1", day(21), {"belt", "chain"}}}),
              testing::IsSupersetOf({"one-isolation", "standing-free"}));
}

TEST(Reasons, AnEarlierDaySaysByHowMuchTheChanceFalls) {
  const auto all = compare(small_shop(), apart, {{"m1", day(16), {"belt"}}});
  ASSERT_EQ(all.size(), 1u);
  ASSERT_EQ(all[0].reasons.size(), 1u);
  const Saying& saying = all[0].reasons[0].saying;
  EXPECT_EQ(saying.code, "before-median");
  EXPECT_EQ(saying.numbers.at("days"), 4);
  EXPECT_EQ(saying.numbers.at("to"), 0);
  EXPECT_GT(saying.numbers.at("from"), 0);
}

TEST(Reasons, WhatStandsAgainstTheDueDayIsSaid) {
  ShopAhead shop = small_shop();
  shop.stopping.blackouts = {{"m1", {}, day(19), day(22), "hot order"}};
  shop.stopping.absences = {{{}, "Ada", day(20), day(20), "course"}};
  shop.calendar.closed = {{day(20), "holiday"}};
  shop.stopping.parts_awaited = {{"m1", "belt", day(23)}};
  EXPECT_THAT(reasons_of(shop, {{"m1", day(24), {"belt"}}}),
              testing::ElementsAre("after-parts", "around-hold", "person-away", "due-when-closed"));
}

TEST(Reasons, WhatGuardsPeopleComesFirst) {
  ShopAhead shop = small_shop();
  shop.machines[0].tasks[0].task.assembly = "guards";
  EXPECT_EQ(reasons_of(shop, {{"m1", day(21), {"belt", "chain"}}}).front(), "guards-people");
}

}  // namespace
}  // namespace hw::proposal
