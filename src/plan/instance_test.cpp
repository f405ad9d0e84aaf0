#include "src/plan/instance.h"

#include <functional>

#include <gmock/gmock.h>

#include "libs/formats/json.h"
#include "src/plan/instance_file.h"
#include "src/plan/tiny_instance_test.h"

namespace hw::plan {
namespace {

using testing::HasSubstr;

Instance good_instance() { return instance_with({machine_with("m1", {weekly_task("oil"), weekly_task("filter")})}); }

void expect_named(const std::function<void(Instance&)>& spoil, const std::string& says) {
  Instance instance = good_instance();
  spoil(instance);
  const auto checked = check_instance(instance);
  ASSERT_FALSE(checked.has_value()) << says;
  EXPECT_THAT(checked.error().message, HasSubstr(says));
}

TEST(Instance, IsReadAsItIsPrinted) {
  const std::string text = formats::print_json(good_instance());
  const auto read = parse_instance(text);
  ASSERT_TRUE(read.has_value()) << read.error().message;
  EXPECT_EQ(formats::print_json(*read), text);
}

TEST(Instance, WhatAFileMayLeaveOutIsNotPrintedUnlessItIsThere) {
  EXPECT_EQ(formats::print_json(good_instance()).find("agreed"), std::string::npos);
  Instance instance = good_instance();
  instance.machines[0].tasks[0].agreed = AgreedSlot{3, 0, std::nullopt};
  instance.machines[0].tasks[1].agreed = AgreedSlot{4, 0, 25.0};
  instance.closed_days = {5};
  instance.crews[0].absent = {{1, 0, 1.5}};
  const std::string text = formats::print_json(instance);
  EXPECT_THAT(text, HasSubstr(R"("agreed":{"day":3,"shift":0,"move_cost":null})"));
  const auto read = parse_instance(text);
  ASSERT_TRUE(read.has_value()) << read.error().message;
  EXPECT_EQ(formats::print_json(*read), text);
}

TEST(Instance, RefusesSlotsThatAreNotThereAndHoursBelowNone) {
  const auto agree = [](int day, int shift, double move_cost) {
    return [=](Instance& it) { it.machines[0].tasks[0].agreed = AgreedSlot{day, shift, move_cost}; };
  };
  expect_named(agree(7, 0, 1), "machines[0].tasks[0].agreed.day: 7 is beyond the 7 days");
  expect_named(agree(-1, 0, 1), "machines[0].tasks[0].agreed.day");
  expect_named(agree(1, 1, 1), "machines[0].tasks[0].agreed.shift");
  expect_named(agree(1, 0, -1), "machines[0].tasks[0].agreed.move_cost");
  expect_named([](Instance& it) { it.closed_days = {-3}; }, "closed_days");
  expect_named([](Instance& it) { it.crews[0].absent = {{1, 0, -1}}; }, "crews[0].absent[0].hours");
  expect_named([](Instance& it) { it.crews[0].absent = {{1, 2, 1}}; }, "crews[0].absent[0].shift");
}

TEST(Instance, RefusesTravelToNowhereOrLongerThanAnyShift) {
  const auto travel = [](std::vector<Travel> ways) {
    return [=](Instance& it) {
      it.machines[0].place = "east";
      it.crews[0].travel = ways;
    };
  };
  expect_named(travel({{"west", 10, 1}}), "crews[0].travel[0].place: no machine has the place \"west\"");
  expect_named(travel({{"", 10, 1}}), "crews[0].travel[0].place: no machine has the place \"\"");
  expect_named(travel({{"east", 10, 1}, {"east", 20, 1}}), "crews[0].travel[1].place: \"east\" is there twice");
  expect_named(travel({{"east", -1, 1}}), "crews[0].travel[0].cost");
  expect_named(travel({{"east", 10, -1}}), "crews[0].travel[0].hours");
  expect_named(travel({{"east", 10, 8.5}}),
               "crews[0].travel[0].hours: must be from 0 to the hours of the longest shift");
  Instance good = good_instance();
  travel({{"east", 10, 8}})(good);
  const auto read = parse_instance(formats::print_json(good));
  ASSERT_TRUE(read.has_value()) << read.error().message;
  EXPECT_EQ(read->crews[0].travel->front().hours, 8);
}

TEST(Instance, RefusesAContradictionWithItsField) {
  expect_named([](Instance& it) { it.machines[0].tasks[1].max_gap_days = 2; }, "machines[0].tasks[1].max_gap_days: 2");
  expect_named([](Instance& it) { it.machines[0].tasks[0].first_latest_day.emplace(-1); },
               "machines[0].tasks[0].first_latest_day: -1");
  expect_named([](Instance& it) { it.machines[0].stop.locked.cost = 5; }, "machines[0].stop.locked");
  expect_named([](Instance& it) { it.machines[0].blackouts = {{5, 3}}; }, "machines[0].blackouts[0]");
}

TEST(Instance, RefusesNamesThatAreNotThereOrThereTwice) {
  expect_named([](Instance& it) { it.machines[0].tasks[0].crew = "nobody"; },
               "machines[0].tasks[0].crew: there is no crew \"nobody\"");
  expect_named([](Instance& it) { it.machines[0].cell = "south"; }, "machines[0].cell: there is no cell \"south\"");
  expect_named([](Instance& it) { it.machines.push_back(it.machines[0]); }, "machines[1].id: \"m1\" is there twice");
  expect_named([](Instance& it) { it.machines[0].tasks[1].id = "oil"; }, "machines[0].tasks[1].id");
}

TEST(Instance, RefusesNumbersThatMeanNothing) {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  expect_named([&](Instance& it) { it.machines[0].tasks[0].own_cost = nan; }, "machines[0].tasks[0].own_cost");
  expect_named([](Instance& it) { it.machines[0].tasks[0].labour_hours = -1; }, "machines[0].tasks[0].labour_hours");
  expect_named([](Instance& it) { it.machines[0].tasks[0].wear = 1; }, "machines[0].tasks[0].wear");
  expect_named([](Instance& it) { it.machines[0].tasks[0].cycle_days[3] = 0; }, "tasks[0].cycle_days[3]");
  expect_named([](Instance& it) { it.crews[0].hours[2][0] = -8; }, "crews[0].hours[2][0]");
  expect_named([](Instance& it) { it.cells[0].max_down[0][0] = -1; }, "cells[0].max_down[0][0]");
  expect_named([](Instance& it) { it.crews[0].hours.pop_back(); }, "crews[0].hours: must have 7 rows");
}

TEST(Instance, RefusesNoDaysAndNoShifts) {
  expect_named([](Instance& it) { it.shifts.clear(); }, "shifts: there must be 1 to");
  expect_named([](Instance& it) { it.days = 0; }, "days: must be from 1");
  expect_named([](Instance& it) { it.shifts[0].hours = 0; }, "shifts[0].hours");
  expect_named([](Instance& it) { it.format = "stops-2"; }, "format: must be");
}

TEST(Instance, RefusesMoreTasksOnAMachineThanCanBePlanned) {
  expect_named([](Instance& it) { it.machines[0].tasks.assign(1000000, it.machines[0].tasks[0]); },
               "machines[0].tasks: 1000000 tasks on one machine");
}

TEST(Instance, RefusesTextThatIsNone) {
  EXPECT_FALSE(parse_instance("{\"format\":").has_value());
  const auto missing = parse_instance(R"({"format":"hourwright-stops-1"})");
  ASSERT_FALSE(missing.has_value());
  EXPECT_THAT(missing.error().message, HasSubstr("is missing"));
  std::string text = formats::print_json(good_instance());
  text.replace(text.find("\"wear\":2"), 8, "\"wear\":NaN");
  EXPECT_FALSE(parse_instance(text).has_value());
}

TEST(StopPlan, IsReadAsItIsPrinted) {
  StopPlan plan;
  plan.instance = "tiny";
  plan.claimed_cost = 12.5;
  plan.claimed_bound = 12;
  plan.stops = {{"m1", 3, 0, EnergyState::locked, {"oil", "filter"}}};
  plan.running_jobs = {{"m1", 4, 0, "listen"}};
  const std::string text = print_plan(plan);
  const auto read = parse_plan(text);
  ASSERT_TRUE(read.has_value()) << read.error().message;
  EXPECT_EQ(print_plan(*read), text);
}

}  // namespace
}  // namespace hw::plan
