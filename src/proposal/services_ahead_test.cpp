#include "src/proposal/services_ahead.h"

#include <algorithm>
#include <map>

#include "src/proposal/ahead_test.h"
#include "src/proposal/proposed.h"

namespace hw::proposal {
namespace {

using catalogue::EnergyState;
using Unit = catalogue::CalendarInterval::Unit;

constexpr int year_days = services_weeks * 7;

TaskAhead yearly_task(std::string key, LocalDate due_on, int months = 12) {
  TaskAhead ahead = belt_task(std::move(key));
  ahead.due = due::on_calendar(due_on);
  ahead.next = due::on_calendar(add_months(day(5), months));
  ahead.calendar = {{{months, Unit::month}, due_on, 20}};
  ahead.age_days = day(5) - add_months(due_on, -months);
  ahead.tolerance_days = 20;
  ahead.task.minutes = 30;
  return ahead;
}

// By a counter alone.
TaskAhead counted_task(std::string key, LocalDate due_on) {
  TaskAhead ahead = yearly_task(std::move(key), due_on);
  ahead.calendar.clear();
  ahead.due = due_between(due_on - 10, due_on + 10);
  return ahead;
}

const catalogue::KindService yearly{
    "yearly", "Yearly service", "Jahreswartung", 12, 2, {"oil", "level", "belt", "lid"}};

// Two machines with an oil of 30 min that is due on the given day, and more.
ShopAhead serviced_shop(LocalDate oil_on = day(5) + 100) {
  ShopAhead shop = small_shop();
  for (MachineAhead& machine : shop.machines) {
    machine.services = {yearly};
    machine.tasks = {yearly_task("oil", oil_on), counted_task("level", oil_on + 60), belt_task("chain")};
  }
  return shop;
}

const PlannedService& planned_for(const ServicesAhead& ahead, const std::string& machine) {
  const auto found = std::find_if(ahead.planned.begin(), ahead.planned.end(),
                                  [&](const PlannedService& one) { return one.machine == machine; });
  EXPECT_NE(found, ahead.planned.end()) << machine;
  return *found;
}

const TaskAhead& joint_of(const ServicesAhead& ahead, std::size_t machine) {
  return ahead.shop.machines.at(machine).tasks.at(0);
}

TEST(ServicesAhead, AServiceHoldsTheTasksThatTheMachineHasAndNothingElse) {
  const ServicesAhead ahead = services_ahead(serviced_shop());
  ASSERT_EQ(ahead.planned.size(), 2u);
  EXPECT_EQ(planned_for(ahead, "m1").service, "yearly");
  EXPECT_EQ(planned_for(ahead, "m1").tasks, (std::vector<std::string>{"oil", "level"}));
  EXPECT_EQ(ahead.shop.machines[0].tasks.size(), 1u) << "the chain is planned with everything, not with services";
}

TEST(ServicesAhead, WhatWouldFallDueAfterTheNextServiceWaitsForIt) {
  ShopAhead shop = serviced_shop();
  const LocalDate next = add_months(day(5) + 100, 12);
  shop.machines[0].tasks.push_back(counted_task("belt", next - 1));
  shop.machines[1].tasks.push_back(counted_task("belt", next));
  const ServicesAhead ahead = services_ahead(shop);
  EXPECT_EQ(planned_for(ahead, "m1").tasks, (std::vector<std::string>{"oil", "level", "belt"}));
  EXPECT_EQ(planned_for(ahead, "m2").tasks, (std::vector<std::string>{"oil", "level"}));
}

TEST(ServicesAhead, ItFallsDueWithTheFirstTaskOfAYearOrSoOnThatDateWithItsTolerance) {
  ShopAhead shop = serviced_shop();
  shop.machines[0].tasks.push_back(yearly_task("belt", day(5) + 80));
  shop.machines[0].tasks.push_back(yearly_task("lid", day(5) + 10, 3));
  const ServicesAhead made = services_ahead(shop);
  const TaskAhead& joint = joint_of(made, 0);
  EXPECT_EQ(due::quantile(joint.due, 0.1), day(5) + 80) << "not the one of three months";
  EXPECT_EQ(due::quantile(joint.due, 0.9), day(5) + 80);
  EXPECT_EQ(joint.tolerance_days, 20);
  EXPECT_EQ(joint.age_days, day(5) - add_months(day(5) + 80, -12));
  EXPECT_EQ(due::quantile(joint.next, 0.5), add_months(day(5), 12));
}

TEST(ServicesAhead, WithoutSuchATaskItFallsDueWhenTheFirstMostLikelyDoes) {
  ShopAhead shop = serviced_shop();
  shop.machines[0].tasks = {counted_task("level", day(5) + 60), counted_task("belt", day(5) + 70)};
  const ServicesAhead made = services_ahead(shop);
  EXPECT_EQ(due::quantile(joint_of(made, 0).due, 0.5), due::quantile(shop.machines[0].tasks[0].due, 0.5));
}

TEST(ServicesAhead, ItsLabourIsThatOfAllAndTheMachineStandsForWhatTwoNeed) {
  ShopAhead shop = serviced_shop();
  shop.machines[0].tasks[0].task.energy = EnergyState::powered_at_rest;
  shop.machines[0].tasks[0].task.work = catalogue::WorkType::replace;
  shop.machines[0].tasks.push_back(yearly_task("belt", day(5) + 100));
  shop.machines[0].tasks.push_back(yearly_task("lid", day(5) + 100));
  const ServicesAhead made = services_ahead(shop);
  const TaskAhead& joint = joint_of(made, 0);
  EXPECT_EQ(joint.task.energy, EnergyState::isolated);
  EXPECT_EQ(joint.task.minutes, 4 * 30);
  EXPECT_EQ(joint.joint->standing_minutes, 30 + 45) << "one at rest; three isolated, shared by two";
  const StopInstance instance = make_instance(made.shop, year_days, Moving::fixed);
  const plan::Task& task = instance.instance.machines[0].tasks[0];
  EXPECT_EQ(task.labour_hours, 2);
  EXPECT_EQ(task.own_cost, 120);
  EXPECT_EQ(task.down_hours, 1.25);
  EXPECT_EQ(task.crew, "technician");
  EXPECT_EQ(task.state, plan::EnergyState::locked);
  EXPECT_EQ(*task.first_latest_day, year_days - 1) << "within the year at the latest";
}

TEST(ServicesAhead, AServiceWithATaskThatGuardsPeopleIsNeverPlannedLate) {
  ShopAhead shop = serviced_shop();
  shop.machines[0].tasks[1].task.assembly = "guards";
  const StopInstance made = make_instance(services_ahead(shop).shop, year_days, Moving::fixed);
  EXPECT_EQ(*made.instance.machines[0].tasks[0].first_latest_day, 100 + 20);
  EXPECT_FALSE(made.instance.machines[1].tasks[0].safety_critical);
}

TEST(ServicesAhead, WhatIsDueAfterTheYearIsNamedInsteadOfPlanned) {
  const ServicesAhead year = services_ahead(serviced_shop(add_months(day(5), 12)));
  EXPECT_EQ(year.planned.size(), 2u) << "done today it is due in a year, and planned within it";
  ShopAhead shop = serviced_shop();
  shop.machines[1].tasks = {yearly_task("oil", day(5) + 400, 18)};
  const ServicesAhead later = services_ahead(shop);
  ASSERT_EQ(later.later.size(), 1u);
  EXPECT_EQ(later.later[0].machine, "m2");
  EXPECT_EQ(later.later[0].due_on, day(5) + 400);
  EXPECT_TRUE(later.shop.machines[1].tasks.empty());
}

TEST(ServicesAhead, AStopThatHoldsHalfOfItIsItsStop) {
  ShopAhead shop = serviced_shop();
  shop.agreed = {agreed_stop(shop, "s", "m1", day(5) + 30, {"oil", "chain"})};
  const ServicesAhead ahead = services_ahead(shop);
  EXPECT_EQ(planned_for(ahead, "m1").tasks, (std::vector<std::string>{"oil", "level"}));
  ASSERT_EQ(ahead.shop.agreed[0].tasks.size(), 2u);
  EXPECT_EQ(ahead.shop.agreed[0].tasks[1].task, planned_for(ahead, "m1").id);
  const StopInstance made = make_instance(ahead.shop, year_days, Moving::priced);
  ASSERT_EQ(made.instance.machines[0].tasks.size(), 2u) << "the service and the chain";
  for (const plan::Task& task : made.instance.machines[0].tasks) {
    ASSERT_TRUE(task.agreed) << task.id;
    EXPECT_EQ(task.agreed->day, 30);
    EXPECT_FALSE(task.agreed->move_cost) << "the chain's dates do not count here, so its stop is not moved";
  }
}

TEST(ServicesAhead, WhatItsStopHasNoRoomForIsDoneElsewhere) {
  for (const LocalDate on : {day(5) + 32, day(5)}) {
    ShopAhead shop = serviced_shop();
    if (on > day(5)) shop.machines[0].tasks[1].task.minutes = 300;  // beyond the crew's hours
    shop.agreed = {agreed_stop(shop, "s", "m1", on, {"oil"})};
    const ServicesAhead ahead = services_ahead(shop);
    EXPECT_EQ(planned_for(ahead, "m1").tasks, std::vector<std::string>{"level"}) << print(on);
    EXPECT_EQ(ahead.shop.agreed[0].tasks.at(0).task, "oil");
  }
}

TEST(ServicesAhead, AStopOfAServiceAloneMayBeMovedAtItsPrice) {
  ShopAhead shop = serviced_shop();
  shop.agreed = {agreed_stop(shop, "s", "m1", day(5) + 30, {"oil", "level"})};
  const StopInstance made = make_instance(services_ahead(shop).shop, year_days, Moving::priced);
  EXPECT_EQ(*made.instance.machines[0].tasks[0].agreed->move_cost, shop.stopping.moving);
}

TEST(ServicesAhead, ATaskInAnotherStopIsDoneThereAndOnlyThere) {
  ShopAhead shop = serviced_shop();
  shop.machines[0].tasks.push_back(yearly_task("belt", day(5) + 100));
  shop.agreed = {agreed_stop(shop, "s", "m1", day(5) + 30, {"belt"})};
  const ServicesAhead ahead = services_ahead(shop);
  EXPECT_EQ(planned_for(ahead, "m1").tasks, (std::vector<std::string>{"oil", "level"}));
  const StopInstance made = make_instance(ahead.shop, year_days, Moving::fixed);
  ASSERT_TRUE(plan::check_instance(made.instance));
  const auto& tasks = made.instance.machines[0].tasks;
  ASSERT_EQ(tasks.size(), 2u);
  EXPECT_EQ(tasks[1].id, "belt");
  EXPECT_EQ(tasks[1].agreed->day, 30) << "it takes its hours and its place";
  EXPECT_EQ(tasks[1].own_cost, 0);
}

TEST(ServicesAhead, ItWaitsForThePartsOfAllItsTasks) {
  ShopAhead shop = serviced_shop();
  shop.stopping.parts_awaited = {{"m1", "oil", day(5) + 90}, {"m1", "level", day(5) + 97}};
  const StopInstance made = make_instance(services_ahead(shop).shop, year_days, Moving::fixed);
  EXPECT_EQ(made.instance.machines[0].tasks[0].first_earliest_day, 97);
}

Proposed spread(const ShopAhead& shop) {
  ProposedOptions options;
  options.what = What::services;
  options.days = year_days;
  options.effort_s = 0.3;
  auto proposed = propose(shop, options);
  EXPECT_TRUE(proposed) << proposed.error().message;
  return proposed ? *std::move(proposed) : Proposed{};
}

// Six machines whose services are due on the same day, with people for one a shift.
ShopAhead fleet() {
  ShopAhead shop = serviced_shop();
  shop.cells[0].max_down = 6;
  shop.stopping.crews = {{catalogue::Skill::technician, {{{1, 2, 3, 4, 5, 6}, "early", 3, 0, 0}}}};
  shop.machines.resize(1);
  shop.machines[0].tasks[0].task.minutes = 90;
  for (int i = 2; i <= 6; ++i) {
    MachineAhead next = shop.machines[0];
    next.key = fmt::format("m{}", i);
    shop.machines.push_back(next);
  }
  return shop;
}

TEST(ServicesAhead, AFleetsServicesAreSpreadSoThatNoTwoWantTheSamePeople) {
  const Proposed proposed = spread(fleet());
  EXPECT_TRUE(proposed.without_place.empty());
  std::set<std::pair<LocalDate, std::string>> slots;
  std::map<std::string, int> done;
  for (const Difference& one : proposed.differences) {
    EXPECT_EQ(one.kind, DifferenceKind::made);
    EXPECT_EQ(one.service, "yearly");
    EXPECT_EQ(one.tasks, (std::vector<std::string>{"level", "oil"}));
    EXPECT_EQ(one.minutes, 45 + 90) << "the longer of two, done beside the other";
    EXPECT_TRUE(slots.insert({one.to->on, one.to->shift}).second) << "2 h of work where there are 3";
    for (const std::string& task : one.tasks) ++done[one.machine + "/" + task];
  }
  EXPECT_EQ(proposed.differences.size(), 6u);
  EXPECT_EQ(done.size(), 12u);
  for (const auto& [task, times] : done) EXPECT_EQ(times, 1) << task;
  EXPECT_GE(proposed.saving(), 0);
}

TEST(ServicesAhead, HoursAndPlacesOfOtherAgreedStopsAreTaken) {
  ShopAhead shop = fleet();
  shop.cells[0].max_down = 1;
  const Proposed free = spread(shop);
  ASSERT_FALSE(free.differences.empty());
  const Difference& first = free.differences[0];
  shop.machines[1].tasks[2].task.minutes = 60;
  AgreedStop stop = agreed_stop(shop, "s", "m2", first.to->on, {"chain"});
  stop.shift = first.to->shift;
  shop.agreed = {stop};
  for (const Difference& one : spread(shop).differences) {
    EXPECT_TRUE(one.stop != "s" || one.kind == DifferenceKind::changed) << "its machine's service may come to it";
    EXPECT_FALSE(one.machine != "m2" && one.to->on == first.to->on && one.to->shift == first.to->shift)
        << one.machine << " in the only place, which is taken";
  }
}

TEST(ServicesAhead, WhatIsAgreedAlreadyIsNoDifferenceAndWhatLacksTasksIsOne) {
  ShopAhead shop = serviced_shop();
  shop.agreed = {agreed_stop(shop, "whole", "m1", day(5) + 93, {"oil", "level"}),
                 agreed_stop(shop, "half", "m2", day(5) + 95, {"oil"})};
  for (AgreedStop& stop : shop.agreed) {
    for (AgreedTask& task : stop.tasks) task.minutes = 30;
  }
  const Proposed proposed = spread(shop);
  ASSERT_EQ(proposed.differences.size(), 1u);
  EXPECT_EQ(proposed.differences[0].stop, "half");
  EXPECT_EQ(proposed.differences[0].kind, DifferenceKind::changed);
  EXPECT_EQ(proposed.differences[0].tasks, (std::vector<std::string>{"level", "oil"}));
  EXPECT_EQ(proposed.differences[0].service, "yearly");
}

TEST(ServicesAhead, WhatDoesNotFitAShiftIsExplained) {
  ShopAhead shop = serviced_shop();
  shop.machines[0].tasks[0].task.minutes = 500;
  const Proposed proposed = spread(shop);
  ASSERT_EQ(proposed.without_place.size(), 1u);
  EXPECT_EQ(proposed.without_place[0].machine, "m1");
  EXPECT_EQ(proposed.without_place[0].says.saying.texts.at("title"), "Yearly service");
  EXPECT_NE(proposed.without_place[0].says.text.find("cannot be placed"), std::string::npos);
}

}  // namespace
}  // namespace hw::proposal
