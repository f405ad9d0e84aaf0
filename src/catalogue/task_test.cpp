#include "src/catalogue/task.h"

#include <limits>

#include <gtest/gtest.h>

#include "src/catalogue/work_words.h"

namespace hw::catalogue {
namespace {

Task good_task() {
  Task task;
  task.title = "Grease the chuck";
  task.assembly = "chuck";
  task.triggers = {CounterTrigger{"spindle", 40, 8, 8}};
  return task;
}

TEST(Task, WhatNoTaskCanBeIsRefusedByItsField) {
  EXPECT_TRUE(check(good_task()).has_value());
  const auto message = [](auto change) {
    Task task = good_task();
    change(task);
    const auto checked = check(task);
    return checked ? std::string("taken") : checked.error().message;
  };
  constexpr double nan = std::numeric_limits<double>::quiet_NaN();
  EXPECT_EQ(message([](Task& t) { t.title = ""; }).substr(0, 6), "title:");
  EXPECT_EQ(message([](Task& t) { t.title = std::string(121, 'x'); }).substr(0, 6), "title:");
  EXPECT_EQ(message([](Task& t) { t.assembly = ""; }).substr(0, 9), "assembly:");
  EXPECT_EQ(message([](Task& t) { t.minutes = -1; }).substr(0, 8), "minutes:");
  EXPECT_EQ(message([](Task& t) { t.minutes = nan; }).substr(0, 8), "minutes:");
  EXPECT_EQ(message([](Task& t) { t.triggers.clear(); }).substr(0, 9), "triggers:");
  EXPECT_EQ(message([](Task& t) {
              t.triggers = {CounterTrigger{"spindle", nan, 0, 0}};
            }).substr(0, 21),
            "triggers[0]: interval");
  EXPECT_EQ(message([](Task& t) {
              t.triggers = {CounterTrigger{"", 10, 0, 0}};
            }).substr(0, 20),
            "triggers[0]: counter");
  EXPECT_EQ(message([](Task& t) {
              t.triggers = {CounterTrigger{"axis", 10, 10, 0}};
            }).substr(0, 21),
            "triggers[0]: heads_up");
  EXPECT_EQ(message([](Task& t) {
              t.triggers = {CounterTrigger{"axis", 10, 1, -1}};
            }).substr(0, 22),
            "triggers[0]: tolerance");
  EXPECT_EQ(message([](Task& t) {
              t.triggers = {CalendarTrigger{{}, -1, 0}};
            }).substr(0, 26),
            "triggers[0]: heads_up_days");
  EXPECT_EQ(message([](Task& t) { t.parts = {{"Grease", 0, "kg"}}; }).substr(0, 6), "parts:");
}

TEST(Task, AReadingHasANameAUnitAndLimitsThatLeaveRoomBetweenThem) {
  const auto message = [](std::vector<TaskReading> readings) {
    Task task = good_task();
    task.readings = std::move(readings);
    const auto checked = check(task);
    return checked ? std::string("taken") : checked.error().message;
  };
  constexpr double infinite = std::numeric_limits<double>::infinity();
  EXPECT_EQ(message({{"air", "bar", {}, {}}}), "taken");
  EXPECT_EQ(message({{"air", "bar", {5.0, {}}, {5.0, 10.0}}}), "taken");
  EXPECT_EQ(message({{"air", "bar", {4.5, 7.0}, {4.0, 8.0}}, {"oil", "bar", {}, {}}}), "taken");
  EXPECT_EQ(message({{"", "bar", {}, {}}}).substr(0, 17), "readings[0]: what");
  EXPECT_EQ(message({{"air", "", {}, {}}}).substr(0, 17), "readings[0]: unit");
  EXPECT_EQ(message({{"air", "bar", {}, {}}, {"air", "bar", {}, {}}}).substr(0, 17), "readings[1]: what");
  EXPECT_NE(message({{"air", "bar", {infinite, {}}, {}}}).find("finite"), std::string::npos);
  EXPECT_NE(message({{"air", "bar", {5.0, {}}, {5.5, {}}}}).find("action.min: 5.5"), std::string::npos);
  EXPECT_NE(message({{"air", "bar", {{}, 7.0}, {{}, 6.5}}}).find("action.max: 6.5"), std::string::npos);
  EXPECT_NE(message({{"air", "bar", {7.0, 7.0}, {}}}).find("min is below max"), std::string::npos);
  EXPECT_NE(message({{"air", "bar", {{}, 4.0}, {5.0, {}}}}).find("min is below max"), std::string::npos);
}

TEST(Task, AQuantityUnitBelongsToATopUp) {
  Task task = good_task();
  task.quantity_unit = "l";
  EXPECT_NE(check(task).error().message.find("belongs to a top up"), std::string::npos);
  task.work = WorkType::top_up;
  EXPECT_TRUE(check(task));
  task.quantity_unit = "";
  EXPECT_EQ(check(task).error().message.substr(0, 13), "quantity_unit");
}

TEST(Task, ComesAfterOthersOnceEachAndNotAfterItself) {
  Task task = good_task();
  task.key = "refill";
  task.after = {"drain", "clean"};
  EXPECT_TRUE(check(task));
  task.after = {"drain", "drain"};
  EXPECT_NE(check(task).error().message.find("\"drain\" stands twice"), std::string::npos);
  task.after = {"refill"};
  EXPECT_NE(check(task).error().message.find("after itself"), std::string::npos);
}

Task task_after(std::string key, std::vector<std::string> after) {
  Task task = good_task();
  task.key = std::move(key);
  task.after = std::move(after);
  return task;
}

TEST(Precedence, TasksThatWaitForEachOtherAreRefused) {
  EXPECT_TRUE(check_precedence({}));
  EXPECT_TRUE(check_precedence({task_after("a", {"b", "c"}), task_after("b", {"c"}), task_after("c", {"elsewhere"})}));
  const auto ring = check_precedence({task_after("a", {"b"}), task_after("b", {"c"}), task_after("c", {"a"})});
  EXPECT_EQ(ring.error().code, ErrorCode::bad_input);
  EXPECT_NE(ring.error().message.find("waits for itself"), std::string::npos);
}

TEST(WorkWords, EveryWordReadsBackAndAnUnknownOneListsThem) {
  for (const char* word : {"inspect", "clean", "lubricate", "top up", "adjust", "measure", "replace", "overhaul"}) {
    EXPECT_EQ(word_of(*parse_work_type(word)), word);
  }
  for (const char* word : {"operator", "technician", "outside service"}) EXPECT_EQ(word_of(*parse_skill(word)), word);
  for (const char* word : {"in production", "powered at rest", "isolated"}) {
    EXPECT_EQ(word_of(*parse_energy_state(word)), word);
  }
  EXPECT_NE(parse_skill("fitter").error().message.find("operator, technician, outside service"), std::string::npos);
}

}  // namespace
}  // namespace hw::catalogue
