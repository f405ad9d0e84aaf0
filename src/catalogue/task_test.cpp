#include "src/catalogue/task.h"

#include <limits>

#include <gtest/gtest.h>

namespace hw::catalogue {
namespace {

Task good_task() {
  Task task;
  task.key = "k";
  task.title = "T";
  task.assembly = "a";
  task.triggers = {CounterTrigger{"operating", 40, 8, 4}};
  return task;
}

// The refusal of a good task that `spoil` has changed.
template <class Spoil>
std::string refusal(Spoil spoil) {
  Task task = good_task();
  spoil(task, std::get<CounterTrigger>(task.triggers.at(0)));
  const auto checked = check(task);
  EXPECT_FALSE(checked);
  return checked ? "" : checked.error().message;
}

constexpr double nan = std::numeric_limits<double>::quiet_NaN();
constexpr double infinity = std::numeric_limits<double>::infinity();

TEST(Task, AGoodOneIsTaken) { EXPECT_TRUE(check(good_task())); }

TEST(Task, NumbersThatNoTaskHasAreRefusedByField) {
  for (double bad : {0.0, -1.0, nan, infinity}) {
    EXPECT_TRUE(refusal([&](Task&, auto& trigger) { trigger.interval = bad; }).starts_with("triggers[0]: interval"))
        << bad;
  }
  for (double bad : {-1.0, 40.0, nan, infinity}) {
    EXPECT_TRUE(refusal([&](Task&, auto& trigger) { trigger.heads_up = bad; }).starts_with("triggers[0]: heads_up"))
        << bad;
  }
  for (double bad : {-1.0, nan, infinity}) {
    EXPECT_TRUE(refusal([&](Task&, auto& trigger) { trigger.tolerance = bad; }).starts_with("triggers[0]: tolerance"))
        << bad;
  }
  for (double bad : {-1.0, 10'081.0, nan, infinity}) {
    EXPECT_TRUE(refusal([&](Task& task, auto&) { task.minutes = bad; }).starts_with("minutes")) << bad;
  }
  for (double bad : {0.0, -1.0, nan, infinity}) {
    EXPECT_TRUE(refusal([&](Task& task, auto&) { task.parts = {{"Oil", bad, "l"}}; }).starts_with("parts")) << bad;
  }
}

TEST(Task, DaysOfACalendarTriggerHaveLimits) {
  for (int bad : {-1, 3661}) {
    const CalendarTrigger early{{}, bad, 0}, late{{}, 0, bad};
    EXPECT_NE(refusal([&](Task& task, auto&) { task.triggers = {early}; }).find("heads_up_days"), std::string::npos);
    EXPECT_NE(refusal([&](Task& task, auto&) { task.triggers = {late}; }).find("tolerance_days"), std::string::npos);
  }
}

TEST(Task, WhatHasNoNameIsRefused) {
  EXPECT_TRUE(refusal([](Task& task, auto&) { task.title = ""; }).starts_with("title"));
  EXPECT_TRUE(refusal([](Task& task, auto&) { task.assembly = ""; }).starts_with("assembly"));
  EXPECT_TRUE(refusal([](Task&, auto& trigger) { trigger.counter = ""; }).starts_with("triggers[0]: counter"));
  EXPECT_TRUE(refusal([](Task& task, auto&) { task.triggers = {}; }).starts_with("triggers"));
}

}  // namespace
}  // namespace hw::catalogue
