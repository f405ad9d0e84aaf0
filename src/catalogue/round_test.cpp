#include "src/catalogue/round.h"

#include <gtest/gtest.h>

namespace hw::catalogue {
namespace {

Task operators_task(std::string key, std::string_view every, WorkType work = WorkType::inspect) {
  Task task;
  task.key = std::move(key);
  task.title = "Title of " + task.key;
  task.assembly = "coolant";
  task.work = work;
  task.triggers = {CalendarTrigger{*parse_calendar_interval(every), 0, 0}};
  return task;
}

Task at_point(Task task, int point) {
  task.point = point;
  return task;
}

std::vector<std::string> keys(const Round& round) {
  std::vector<std::string> out;
  for (const Check& check : round.checks) out.push_back(check.key);
  return out;
}

using Keys = std::vector<std::string>;

TEST(Rounds, TasksOfShiftDayAndWeekMakeARoundEachAndOthersNone) {
  auto technicians = operators_task("technicians", "1 shift");
  technicians.skill = Skill::technician;
  auto counted = operators_task("counted", "1 day");
  counted.triggers = {CounterTrigger{"operating", 8, 0, 0}};
  const std::vector<Task> tasks{operators_task("weekly", "1 week"),
                                operators_task("daily", "1 day"),
                                operators_task("each-shift", "1 shift"),
                                operators_task("fortnightly", "2 weeks"),
                                operators_task("monthly", "1 month"),
                                technicians,
                                counted};
  const auto rounds = rounds_of("mill-1", tasks, {});
  ASSERT_EQ(rounds.size(), 3u);
  EXPECT_EQ(rounds[0].rhythm, Rhythm::shift);
  EXPECT_EQ(rounds[0].machine, "mill-1");
  EXPECT_EQ(keys(rounds[0]), Keys{"each-shift"});
  EXPECT_EQ(keys(rounds[1]), Keys{"daily"});
  EXPECT_EQ(keys(rounds[2]), Keys{"weekly"});
  EXPECT_TRUE(rounds_of("mill-1", {tasks[3], tasks[4]}, {}).empty());
}

TEST(Rounds, OfSeveralTriggersTheMostFrequentDecides) {
  auto task = operators_task("both", "1 week");
  task.triggers.emplace_back(CounterTrigger{"operating", 400, 0, 0});
  task.triggers.emplace_back(CalendarTrigger{*parse_calendar_interval("1 day"), 0, 0});
  EXPECT_EQ(rhythm_of(task), Rhythm::day);
}

TEST(Rounds, TheWorkDecidesTheKindOfCheck) {
  const auto kind = [](WorkType work) {
    return rounds_of("m", {operators_task("k", "1 day", work)}, {}).at(0).checks.at(0).kind;
  };
  EXPECT_EQ(kind(WorkType::inspect), CheckKind::look);
  EXPECT_EQ(kind(WorkType::measure), CheckKind::look);
  EXPECT_EQ(kind(WorkType::clean), CheckKind::clean);
  EXPECT_EQ(kind(WorkType::top_up), CheckKind::top_up);
  EXPECT_EQ(kind(WorkType::lubricate), CheckKind::look);
  EXPECT_EQ(kind(WorkType::adjust), CheckKind::look);
}

TEST(Rounds, EachReadingOfATaskIsACheckWithItsUnitAndLimits) {
  auto task = operators_task("coolant", "1 week", WorkType::measure);
  task.readings = {{"strength", "%", {}, {}}, {"pH", "pH", {8.5, 9.3}, {}}};
  const auto checks = rounds_of("m", {task}, {}).at(0).checks;
  ASSERT_EQ(checks.size(), 2u);
  EXPECT_EQ(checks[0].key, "coolant/strength");
  EXPECT_EQ(checks[1].key, "coolant/pH");
  EXPECT_EQ(checks[1].task, "coolant");
  EXPECT_EQ(checks[1].kind, CheckKind::reading);
  EXPECT_EQ(checks[1].reading, task.readings[1]);
}

TEST(Rounds, ACleanOrATopUpWithAReadingKeepsItsOwnCheckBeforeIt) {
  auto task = operators_task("tank", "1 shift", WorkType::top_up);
  task.readings = {{"temperature", "°C", {}, {}}};
  task.quantity_unit = "l";
  const auto checks = rounds_of("m", {task}, {}).at(0).checks;
  ASSERT_EQ(checks.size(), 2u);
  EXPECT_EQ(checks[0].kind, CheckKind::top_up);
  EXPECT_EQ(checks[0].quantity_unit, "l");
  EXPECT_EQ(checks[1].kind, CheckKind::reading);
  EXPECT_FALSE(checks[1].quantity_unit);
}

TEST(Rounds, ATopUpWithoutAUnitTakesThatOfItsFirstPart) {
  auto task = operators_task("tank", "1 shift", WorkType::top_up);
  const auto unit = [&] { return rounds_of("m", {task}, {}).at(0).checks.at(0).quantity_unit; };
  EXPECT_FALSE(unit());
  task.parts = {{"Grease", 0.2, "kg"}, {"Oil", 0.3, "l"}};
  EXPECT_EQ(unit(), "kg");
  task.quantity_unit = "g";
  EXPECT_EQ(unit(), "g");
}

TEST(Rounds, ChecksStandInWalkingOrderAndThoseOfOnePointInTheTasksOrder) {
  const std::vector<Task> tasks{
      at_point(operators_task("at-2", "1 day"), 2),       at_point(operators_task("unknown-place", "1 day"), 77),
      at_point(operators_task("at-7", "1 day"), 7),       operators_task("at-panel", "1 day"),
      at_point(operators_task("at-2-again", "1 day"), 2), at_point(operators_task("at-1", "1 day"), 1)};
  EXPECT_EQ(keys(rounds_of("m", tasks, {7, 1, 2}).at(0)),
            (Keys{"at-panel", "at-7", "at-1", "at-2", "at-2-again", "unknown-place"}));
}

TEST(Rounds, EveryWordReadsBackAndAnUnknownOneListsThem) {
  for (const char* word : {"before start-up", "shift", "day", "week"}) EXPECT_EQ(word_of(*parse_rhythm(word)), word);
  for (const char* word : {"look", "reading", "clean", "top up"}) EXPECT_EQ(word_of(*parse_check_kind(word)), word);
  EXPECT_NE(parse_rhythm("hourly").error().message.find("before start-up, shift, day, week"), std::string::npos);
  EXPECT_NE(parse_check_kind("smell").error().message.find("look, reading"), std::string::npos);
}

}  // namespace
}  // namespace hw::catalogue
