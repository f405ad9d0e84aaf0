#include "src/rehearsal/machine_year.h"

#include <gtest/gtest.h>

#include "src/rehearsal/years_test.h"

namespace hw::rehearsal {
namespace {

std::vector<double> days_of(const std::vector<Happening>& told, std::size_t task = 0) {
  std::vector<double> days;
  for (const Happening& one : told) {
    if (one.task == task) days.push_back(one.at_day);
  }
  return days;
}

TEST(MachineYear, ATaskFallsDueTheMomentItsIntervalIsUsedUp) {
  EXPECT_EQ(days_of(tell_year(even_shop({task_every("oil", 75)}, 30))), (std::vector<double>{7.5, 15, 22.5}));
}

TEST(MachineYear, WhatIsUsedAlreadyCountsAndWhatIsOverIsDoneAtOnce) {
  Task half = task_every("oil", 100), over = task_every("belt", 100);
  half.intervals[0].used = 50;
  over.intervals[0].used = 130;
  const auto told = tell_year(even_shop({half, over}, 12));
  EXPECT_EQ(days_of(told, 0), (std::vector<double>{5}));
  EXPECT_EQ(days_of(told, 1), (std::vector<double>{0, 10}));
}

TEST(MachineYear, AStopTakesAlongWhatIsWithinItsHeadsUp) {
  const ShopYear shop =
      even_shop({task_every("oil", 100), task_every("belt", 120, 20), task_every("seal", 121, 20)}, 11);
  const auto told = tell_year(shop);
  EXPECT_EQ(days_of(told, 0), (std::vector<double>{10}));
  EXPECT_EQ(days_of(told, 1), (std::vector<double>{10}));
  EXPECT_EQ(days_of(told, 2), (std::vector<double>{}));
  EXPECT_EQ(play_years(shop, 1)[0].stops, 1);
}

// Nobody locks a machine out for work that can wait for a stop in which it is locked out anyway.
TEST(MachineYear, AStopAtRestTakesAlongNothingThatNeedsIsolation) {
  Task rest = task_every("look", 100);
  rest.energy = catalogue::EnergyState::powered_at_rest;
  const auto told = tell_year(even_shop({rest, task_every("belt", 110, 20)}, 12));
  EXPECT_EQ(days_of(told, 0), (std::vector<double>{10}));
  EXPECT_EQ(days_of(told, 1), (std::vector<double>{11}));
}

TEST(MachineYear, WorkInProductionOpensNoStopAndJoinsNone) {
  Task look = task_every("look", 100, 90);
  look.energy = catalogue::EnergyState::in_production;
  const ShopYear shop = even_shop({look, task_every("oil", 60)}, 11);
  EXPECT_EQ(days_of(tell_year(shop), 0), (std::vector<double>{10}));
  const Outcome year = play_years(shop, 1)[0];
  EXPECT_EQ(year.stops, 1);
  EXPECT_EQ(year.tasks_done, 2);
  EXPECT_EQ(year.standing_hours, 1);
  EXPECT_EQ(year.hands_on_hours, 2);
}

TEST(MachineYear, TheFirstOfSeveralIntervalsDecidesAndTheCalendarIsOne) {
  Task task = task_every("oil", 100);
  task.intervals.push_back({std::nullopt, 4, 0, 1});
  EXPECT_EQ(days_of(tell_year(even_shop({task}, 12))), (std::vector<double>{3, 7, 11}));
}

TEST(MachineYear, NothingIsUsedOnClosedDaysAndOnWeekendsOfTheirOwn) {
  ShopYear shop = even_shop({task_every("oil", 50)}, 16);
  shop.machines[0].use = {{{10, 10, 10, 10, 10, 0, 0}, 0}};
  shop.closed = {1};  // the first Tuesday
  EXPECT_EQ(days_of(tell_year(shop)), (std::vector<double>{8, 15}));
}

// 60 for the set-up and 0.75 h of it, 1 h of work at 60, all of it standing at 80, 15 for parts.
TEST(MachineYear, AStopCostsSetUpStandingLabourAndParts) {
  ShopYear shop = even_shop({task_every("oil", 100)}, 11);
  shop.isolated = {0.75, 60};
  shop.powered_at_rest = {0.25, 20};
  shop.labour_per_hour = 60;
  shop.machines[0].standing_per_hour = 80;
  shop.machines[0].tasks[0].planned_cost = 15;
  EXPECT_DOUBLE_EQ(play_years(shop, 1)[0].cost, 60 + 1.75 * 80 + 60 + 15);
  shop.machines[0].tasks[0].energy = catalogue::EnergyState::powered_at_rest;
  EXPECT_DOUBLE_EQ(play_years(shop, 1)[0].cost, 20 + 1.25 * 80 + 60 + 15);
}

// A life of shape 1000 ends within a hundredth of 42 hours: on day 4.2, and again 4.2 days later.
TEST(MachineYear, AFailureIsReplacedAtOnceAndBeginsTheIntervalAnew) {
  ShopYear shop = even_shop({with_part(task_every("seal", 50))}, 10);
  shop.lives = {{"seal", {{{1000, 42}, 1}}}};
  shop.machines[0].standing_per_hour = 80;
  shop.machines[0].tasks[0].part->failed_cost = 500;
  shop.machines[0].tasks[0].part->failed_standing_hours = 3;
  const auto told = tell_year(shop);
  ASSERT_EQ(told.size(), 2U);
  EXPECT_NEAR(told[0].at_day, 4.2, 0.05);
  EXPECT_NEAR(told[1].at_day, 8.4, 0.1);
  EXPECT_NEAR(told[1].age, 42, 0.5);
  const Outcome year = play_years(shop, 1)[0];
  EXPECT_EQ(year.failures, 2);
  EXPECT_EQ(year.stops, 0);
  EXPECT_EQ(year.standing_hours, 6);
  EXPECT_EQ(year.cost, 2 * (500 + 3 * 80));
}

}  // namespace
}  // namespace hw::rehearsal
