#include "src/proposal/outside_visits.h"

#include <gmock/gmock.h>

#include "src/proposal/ahead_test.h"
#include "src/proposal/differences.h"
#include "src/proposal/estimate.h"
#include "src/proposal/proposed.h"

namespace hw::proposal {
namespace {

using catalogue::Skill;
using testing::ElementsAre;

// Three machines whose brake the outside service looks after about the same days; it comes for 400 and an hour.
ShopAhead visited_shop() {
  ShopAhead shop = small_shop();
  shop.cells[0].max_down = 3;
  shop.machines.clear();
  for (const char* key : {"m1", "m2", "m3"}) {
    TaskAhead brake = belt_task("brake");
    brake.task.skill = Skill::outside_service;
    shop.machines.push_back(machine_ahead_of(key, {brake}));
  }
  shop.machines[1].tasks[0].due = due_between(day(18), day(26));
  shop.stopping.outside_visit = catalogue::OutsideVisit{.hours = 1, .cost = 400};
  return shop;
}

AgreedStop outside_stop(const ShopAhead& shop, std::string id, std::string machine, LocalDate on) {
  AgreedStop stop = agreed_stop(shop, std::move(id), std::move(machine), on, {"brake"});
  stop.tasks[0].skill = Skill::outside_service;
  return stop;
}

TEST(OutsideVisits, OnlyTheOutsideServiceTravelsAndOnlyWhereTheShopSaysSo) {
  ShopAhead shop = visited_shop();
  const StopInstance made = make_instance(shop, 28, Moving::fixed);
  ASSERT_TRUE(plan::check_instance(made.instance));
  ASSERT_EQ(made.instance.crews.size(), 3u);
  EXPECT_FALSE(made.instance.crews[1].travel);
  ASSERT_TRUE(made.instance.crews[2].travel);
  EXPECT_EQ(made.instance.crews[2].travel->front().cost, 400);
  EXPECT_EQ(made.instance.machines[0].place, plant_place);
  shop.stopping.outside_visit.reset();
  EXPECT_FALSE(make_instance(shop, 28, Moving::fixed).instance.crews[2].travel);
}

TEST(OutsideVisits, AWayLongerThanAnyShiftTakesAWholeOne) {
  ShopAhead shop = visited_shop();
  shop.stopping.outside_visit->hours = 20;
  const PlantSlots slots(shop.calendar, shop.today);
  EXPECT_EQ(travel_of(shop, slots, Skill::outside_service).front().hours, 8);
}

TEST(OutsideVisits, AProposalDoesSeveralMachinesInOneVisitAndSaysSo) {
  const ShopAhead shop = visited_shop();
  ProposedOptions options;
  options.days = 28;
  options.effort_s = 0.5;
  const auto made = propose(shop, options);
  ASSERT_TRUE(made) << made.error().message;
  const Proposed& proposed = *made;
  ASSERT_TRUE(proposed.then.cost.travel);
  EXPECT_EQ(*proposed.then.cost.travel, 400);
  EXPECT_GT(*proposed.now.cost.travel, 400) << "by rule each comes for itself";
  ASSERT_EQ(proposed.differences.size(), 3u);
  for (const Difference& one : proposed.differences) {
    EXPECT_EQ(one.to->on, proposed.differences[0].to->on);
    ASSERT_GE(one.reasons.size(), 2u);
    EXPECT_EQ(one.reasons[1].saying.code, "visit-shared") << "after what guards people";
  }
  EXPECT_EQ(proposed.differences[0].reasons[1].saying.texts.at("machines"), "Mill m2, Mill m3");
}

TEST(OutsideVisits, AStopThatIsTriedOpensAVisitOrSharesTheOneThatIsThere) {
  ShopAhead shop = visited_shop();
  const StopTry wanted{"m1", day(18), "early", {"brake"}, {}};
  const auto alone = estimate_stop(shop, wanted);
  ASSERT_TRUE(alone) << alone.error().message;
  EXPECT_EQ(alone->figures.travel, 400);
  EXPECT_EQ(alone->figures.crews[0].wants_hours, 2);
  EXPECT_TRUE(alone->visited_too.empty());
  shop.agreed = {outside_stop(shop, "s2", "m2", day(18)), outside_stop(shop, "s3", "m3", day(19))};
  const auto shared = estimate_stop(shop, wanted);
  EXPECT_EQ(shared->figures.travel, 0);
  EXPECT_EQ(shared->figures.crews[0].has_hours, 8 - 1 - 1) << "the other's work and the way";
  EXPECT_THAT(shared->visited_too, ElementsAre("m2"));
}

TEST(OutsideVisits, AgreedStopsOfAShiftPayForOneWay) {
  ShopAhead shop = visited_shop();
  shop.stopping.crews.push_back({Skill::outside_service, {{{1, 2, 3, 4, 5}, "early", 3, 0, 0}}});
  shop.agreed = {outside_stop(shop, "s1", "m1", day(18)), outside_stop(shop, "s2", "m2", day(18))};
  const StopInstance made = make_instance(shop, 28, Moving::fixed);
  EXPECT_TRUE(made.left_out.empty()) << "two hours of work and one on the way";
  shop.stopping.outside_visit->hours = 1.5;
  EXPECT_EQ(make_instance(shop, 28, Moving::fixed).left_out.size(), 2u);
}

}  // namespace
}  // namespace hw::proposal
