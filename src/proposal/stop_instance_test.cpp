#include "src/proposal/stop_instance.h"

#include "src/proposal/ahead_test.h"

namespace hw::proposal {
namespace {

constexpr int four_weeks_days = 28;

const plan::Task& task_of(const StopInstance& made, std::size_t machine, std::size_t task) {
  return made.instance.machines.at(machine).tasks.at(task);
}

void expect_sound(const StopInstance& made) {
  const auto checked = plan::check_instance(made.instance);
  EXPECT_TRUE(checked) << checked.error().message;
}

TEST(StopInstance, AShopBecomesAnInstanceThatCanBePlanned) {
  const StopInstance made = make_instance(small_shop(), four_weeks_days, Moving::fixed);
  expect_sound(made);
  ASSERT_EQ(made.instance.machines.size(), 2u);
  EXPECT_EQ(made.instance.machines[0].loss_per_hour[0], (std::vector<double>{80, 80})) << "Thursday, the first row";
  EXPECT_EQ(made.instance.machines[0].loss_per_hour[2], (std::vector<double>{0, 0})) << "Saturday";
  EXPECT_EQ(made.instance.cells[0].max_down[0], (std::vector<int>{1, 1}));
  const plan::Task& belt = task_of(made, 0, 0);
  EXPECT_EQ(belt.crew, "technician");
  EXPECT_EQ(belt.state, plan::EnergyState::locked);
  EXPECT_EQ(belt.down_hours, 1);
  EXPECT_EQ(belt.own_cost, 60) << "an hour of labour";
  EXPECT_EQ(belt.age_days, 15);
  EXPECT_EQ(belt.late_tolerance_days, 3);
}

TEST(StopInstance, TheFiveValuesAreQuantilesOfTheForecast) {
  const StopInstance made = make_instance(small_shop(), four_weeks_days, Moving::fixed);
  const plan::Task& belt = task_of(made, 0, 0);
  const TaskAhead ahead = belt_task();
  EXPECT_EQ(belt.first_due_days[0], *due::quantile(ahead.due, 0.1) - day(5));
  EXPECT_EQ(belt.first_due_days[2], *due::quantile(ahead.due, 0.5) - day(5));
  EXPECT_EQ(belt.cycle_days[4], *due::quantile(ahead.next, 0.9) - day(5));
}

TEST(StopInstance, WhatIsOverIsDueBeforeDayZeroButNotBeforeItWasDoneLast) {
  ShopAhead shop = small_shop();
  shop.machines[0].tasks[0].due = due::on_calendar(day(1));
  shop.machines[0].tasks[1].due = due::on_calendar(day(5) - 100);
  const StopInstance made = make_instance(shop, four_weeks_days, Moving::fixed);
  expect_sound(made);
  EXPECT_EQ(task_of(made, 0, 0).first_due_days[0], -4);
  EXPECT_EQ(task_of(made, 0, 1).first_due_days[0], -14.5) << "half a day after it was done";
}

TEST(StopInstance, ATaskWithoutADateIsLeftOutAndListed) {
  ShopAhead shop = small_shop();
  shop.machines[0].tasks[0].due.clear();
  const StopInstance made = make_instance(shop, four_weeks_days, Moving::fixed);
  ASSERT_EQ(made.left_out.size(), 1u);
  EXPECT_EQ(made.left_out[0].task, "belt");
  EXPECT_EQ(made.instance.machines[0].tasks.size(), 1u);
  EXPECT_EQ(instance_to_try(shop, four_weeks_days).instance.machines[0].tasks[0].own_cost, 0) << "it can be tried";
}

TEST(StopInstance, AnAgreedStopPinsItsTasksOrPricesMovingThem) {
  ShopAhead shop = small_shop();
  shop.agreed = {agreed_stop(shop, "s", "m1", day(9), {"belt", "chain"})};
  const plan::Task fixed = task_of(make_instance(shop, four_weeks_days, Moving::fixed), 0, 0);
  ASSERT_TRUE(fixed.agreed);
  EXPECT_EQ(fixed.agreed->day, 4);
  EXPECT_EQ(fixed.agreed->shift, 0);
  EXPECT_FALSE(fixed.agreed->move_cost);
  EXPECT_LE(fixed.first_earliest_day, 4);
  const plan::Task priced = task_of(make_instance(shop, four_weeks_days, Moving::priced), 0, 0);
  EXPECT_EQ(*priced.agreed->move_cost, 25) << "a half of what moving the stop costs";
}

TEST(StopInstance, AStopOfTodayCountsAsDoneAndOneBeyondTheEndWaits) {
  ShopAhead shop = small_shop();
  shop.agreed = {agreed_stop(shop, "a", "m1", day(5), {"belt"}), agreed_stop(shop, "b", "m2", day(5) + 60, {"belt"})};
  const StopInstance made = make_instance(shop, four_weeks_days, Moving::fixed);
  expect_sound(made);
  EXPECT_EQ(task_of(made, 0, 0).age_days, 0);
  EXPECT_EQ(task_of(made, 0, 0).first_due_days, task_of(made, 0, 0).cycle_days);
  EXPECT_EQ(task_of(made, 1, 0).first_earliest_day, four_weeks_days);
  EXPECT_FALSE(task_of(made, 1, 0).first_latest_day);
}

TEST(StopInstance, AStopAgreedAgainstALimitIsLeftOutSoThatTheRestCanBePlanned) {
  const auto left_out = [](const std::function<void(ShopAhead&)>& change) {
    ShopAhead shop = small_shop();
    shop.agreed = {agreed_stop(shop, "s", "m1", day(9), {"belt", "chain"})};
    change(shop);
    const StopInstance made = make_instance(shop, four_weeks_days, Moving::fixed);
    expect_sound(made);
    return made.left_out.size();
  };
  EXPECT_EQ(left_out([](ShopAhead&) {}), 0u);
  EXPECT_EQ(left_out([](ShopAhead& shop) { shop.calendar.closed = {{day(9), "holiday"}}; }), 2u);
  EXPECT_EQ(left_out([](ShopAhead& shop) { shop.stopping.blackouts = {{"m1", {}, day(8), day(9), "hot"}}; }), 2u);
  EXPECT_EQ(left_out([](ShopAhead& shop) { shop.agreed[0].tasks[0].minutes = 240; }), 2u) << "crew";
  EXPECT_EQ(left_out([](ShopAhead& shop) { shop.cells[0].max_down = 0; }), 2u);
  EXPECT_EQ(left_out([](ShopAhead& shop) { shop.agreed[0].shift = "night"; }), 2u);
}

TEST(StopInstance, ClosedDaysBlackoutsAndPartsStandInDays) {
  ShopAhead shop = small_shop();
  shop.calendar.closed = {{day(1), "over"}, {day(9), "holiday"}, {day(9) + 300, "far"}};
  shop.stopping.blackouts = {{{}, "north", day(1), day(7), "hot order"}, {"m2", {}, day(12), day(13), "hot order"}};
  shop.stopping.parts_awaited = {{"m1", "chain", day(19)}};
  const StopInstance made = make_instance(shop, four_weeks_days, Moving::fixed);
  expect_sound(made);
  EXPECT_EQ(*made.instance.closed_days, (std::vector<int>{4}));
  EXPECT_EQ(made.instance.machines[0].blackouts, (std::vector<std::array<int, 2>>{{0, 2}}));
  EXPECT_EQ(made.instance.machines[1].blackouts, (std::vector<std::array<int, 2>>{{0, 2}, {7, 8}}));
  EXPECT_EQ(task_of(made, 0, 1).first_earliest_day, 14);
}

TEST(StopInstance, WhatGuardsPeopleIsNeverPlannedLate) {
  ShopAhead shop = small_shop();
  shop.machines[0].tasks[0].task.assembly = "guards";
  const StopInstance made = make_instance(shop, four_weeks_days, Moving::fixed);
  expect_sound(made);
  const plan::Task& guard = task_of(made, 0, 0);
  EXPECT_TRUE(guard.safety_critical);
  EXPECT_LE(*guard.first_latest_day, guard.first_due_days[0] + guard.late_tolerance_days);
  EXPECT_FALSE(task_of(made, 0, 1).safety_critical);
  EXPECT_FALSE(task_of(made, 0, 1).first_latest_day) << "a whole cycle late lies beyond four weeks";
}

TEST(StopInstance, APlantWithoutAnythingSaidCanBePlannedToo) {
  ShopAhead shop = small_shop();
  shop.calendar.shifts.clear();
  shop.stopping = {};
  shop.people.clear();
  shop.cells[0].max_down.reset();
  expect_sound(make_instance(shop, four_weeks_days, Moving::fixed));
}

}  // namespace
}  // namespace hw::proposal
