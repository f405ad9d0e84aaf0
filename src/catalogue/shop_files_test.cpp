#include "src/catalogue/shop_files.h"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <set>
#include <sstream>

#include <gtest/gtest.h>

#include "src/catalogue/round.h"
#include "tests/places/places.h"

namespace hw::catalogue {
namespace {

std::string text_of(const std::filesystem::path& file) {
  std::ifstream in(file);
  std::stringstream out;
  out << in.rdbuf();
  return out.str();
}

const std::string small_set = R"(format = "hourwright-task-set-1"
kind = "lathe"
title = "Lathe"
title_de = "Drehmaschine"
note = "Common practice; the builder's manual comes first."
[[assembly]]
key = "chuck"
title = "Chuck"
[[point]]
number = 1
assembly = "chuck"
title = "Chuck jaws"
x = 0.4
y = 0.3
[[task]]
key = "chuck-grease"
title = "Grease the chuck"
assembly = "chuck"
point = 1
work = "lubricate"
skill = "operator"
energy = "powered at rest"
minutes = 10
trigger = [ { counter = "spindle", interval = 40, heads_up = 8, tolerance = 8 }, { calendar = "3 months", heads_up_days = 7 } ]
steps = ["Grease."]
reason = "Dry jaws lose grip."
caution = "Keep the spindle from turning."
parts = [ { name = "Grease", quantity = 0.02, unit = "kg" } ]
)";

std::string with(std::string_view from, std::string_view to) {
  std::string text = small_set;
  text.replace(text.find(from), from.size(), to);
  return text;
}

TEST(TaskSetFile, ATaskIsReadWithAllItSays) {
  const auto set = parse_task_set(small_set, "lathe.toml");
  ASSERT_TRUE(set.has_value()) << set.error().message;
  const Task& task = set->tasks.at(0);
  EXPECT_EQ(task.work, WorkType::lubricate);
  EXPECT_EQ(task.energy, EnergyState::powered_at_rest);
  EXPECT_EQ(std::get<CounterTrigger>(task.triggers.at(0)), (CounterTrigger{"spindle", 40, 8, 8}));
  EXPECT_EQ(print(std::get<CalendarTrigger>(task.triggers.at(1)).every), "3 months");
  EXPECT_EQ(task.parts.at(0), (Part{"Grease", 0.02, "kg"}));
  EXPECT_EQ(set->points.at(0).title, "Chuck jaws");
}

TEST(TaskSetFile, AReadingIsReadWithTheLimitsThatItHas) {
  const auto set = parse_task_set(
      with("reason =",
           "reading = [ { what = \"pH\", unit = \"pH\", warning = { min = 8.5, max = 9.5 }, action = { min = 8 } }, "
           "{ what = \"strength\", unit = \"%\" } ]\nreason ="),
      "lathe.toml");
  ASSERT_TRUE(set.has_value()) << set.error().message;
  const auto& readings = set->tasks.at(0).readings;
  ASSERT_EQ(readings.size(), 2u);
  EXPECT_EQ(readings[0], (TaskReading{"pH", "pH", {8.5, 9.5}, {8.0, {}}}));
  EXPECT_EQ(readings[1], (TaskReading{"strength", "%", {}, {}}));
}

TEST(TaskSetFile, AMistakeIsNamedByFileLineAndFieldWithWhatWouldBeRight) {
  struct Case {
    std::string text;
    std::vector<std::string> says;
  };
  const std::vector<Case> cases{
      {with("\"lubricate\"", "\"oil\""), {"lathe.toml, task 1, line 20, work", "lubricate, top up"}},
      {with("interval = 40", "interval = 0"), {"interval", "above 0"}},
      {with("heads_up = 8", "heads_up = 40"), {"heads_up", "below the interval"}},
      {with("heads_up = 8", "head_up = 8"), {"head_up", "no such field"}},
      {with("point = 1\n", "point = 7\n"), {"chuck-grease", "point 7"}},
      {with("assembly = \"chuck\"\ntitle", "assembly = \"spindle\"\ntitle"), {"point 1", "no assembly here"}},
      {with("\"3 months\"", "\"monthly\""), {"monthly", "3 months"}},
      {with("number = 1\n", "number = -9223372036854775808\n"), {"point 1", "number", "whole number"}},
      {with("x = 0.4", "x = 4"), {"point 1", "0 (left) to 1 (right)"}},
      {with("title_de = \"Drehmaschine\"\n", ""), {"title_de", "missing"}},
      {with("minutes = 10", "minutes = \"ten\""), {"minutes", "it is a number"}},
      {with("minutes = 10", "minutes = nan"), {"minutes"}},
      {with("quantity = 0.02", "quantity = inf"), {"parts"}},
      {with("interval = 40", "interval = inf"), {"interval"}},
      {with("tolerance = 8", "tolerance = nan"), {"tolerance"}},
      {with("\"3 months\"", "\"101 years\""), {"101 years"}},
      {with("reason =", "reading = [ { what = \"pH\", unit = \"pH\", warning = { mim = 8 } } ]\nreason ="),
       {"task 1, reading 1, warning", "mim", "no such field"}},
      {with("reason =", "reading = [ { what = \"pH\", unit = \"pH\", warning = {} } ]\nreason ="),
       {"warning", "{ min = 5 }"}},
      {with("reason =", "reading = [ { what = \"pH\" } ]\nreason ="), {"reading 1", "unit", "missing"}},
      {with("reason =", "quantity_unit = \"l\"\nreason ="), {"quantity_unit", "top up"}},
      {with("reason =", "after = [\"no-such\"]\nreason ="), {"comes after \"no-such\"", "no task here"}},
      {with("kind = ", "kind == "), {"lathe.toml, line 2"}},
      {with("task-set-1", "task-set-9"), {"format"}},
  };
  for (const Case& one : cases) {
    const auto set = parse_task_set(one.text, "lathe.toml");
    ASSERT_FALSE(set.has_value()) << one.says.front();
    for (const auto& part : one.says)
      EXPECT_NE(set.error().message.find(part), std::string::npos) << set.error().message;
  }
}

TEST(TaskSetFile, ALetterBeyondAsciiIsNoBlank) {
  const std::string text = "\"\"\"Dry \\\n  \u00e4\u3042\u00a0jaws.\"\"\"";
  const auto set = parse_task_set(with("\"Dry jaws lose grip.\"", text), "lathe.toml");
  ASSERT_TRUE(set.has_value()) << set.error().message;
  EXPECT_EQ(set->tasks.at(0).reason, "Dry \u00e4\u3042\u00a0jaws.");
  EXPECT_FALSE(parse_task_set(with("minutes =", "minutes\u00a0="), "lathe.toml").has_value());
}

TEST(TaskSetFile, TheSameKeyTwiceIsRefused) {
  const auto task = small_set.substr(small_set.find("[[task]]"));
  EXPECT_NE(parse_task_set(small_set + task, "x").error().message.find("stands twice"), std::string::npos);
}

TEST(TaskSetFile, TheSamePointTwiceIsRefused) {
  const auto point = small_set.find("[[point]]");
  const auto text = small_set + small_set.substr(point, small_set.find("[[task]]") - point);
  EXPECT_NE(parse_task_set(text, "x").error().message.find("\"1\" stands twice"), std::string::npos);
}

TEST(TaskSetFile, EverySetOfTheLibraryIsReadAndNamesItsKindByItsFile) {
  int sets = 0;
  for (const auto& file : std::filesystem::directory_iterator(in_source("library"))) {
    if (file.path().extension() != ".toml") continue;
    const auto set = parse_task_set(text_of(file.path()), file.path().filename().string());
    ASSERT_TRUE(set.has_value()) << set.error().message;
    EXPECT_EQ(set->kind, file.path().stem());
    EXPECT_GE(set->tasks.size(), 38u) << set->kind;
    for (const Task& task : set->tasks) {
      EXPECT_FALSE(task.reason.empty()) << task.key;
      EXPECT_TRUE(task.energy != EnergyState::isolated || !task.caution.empty()) << set->kind << " " << task.key;
    }
    ++sets;
  }
  EXPECT_EQ(sets, 7);
}

TEST(TaskSetFile, EverySetGivesTheOperatorARoundOfEachRhythmWithACoolantReadingEachWeek) {
  for (const auto& file : std::filesystem::directory_iterator(in_source("library"))) {
    if (file.path().extension() != ".toml") continue;
    const auto set = parse_task_set(text_of(file.path()), file.path().filename().string());
    ASSERT_TRUE(set.has_value()) << set.error().message;
    const auto rounds = rounds_of("m", set->tasks, {});
    ASSERT_EQ(rounds.size(), 4u) << set->kind;
    const auto& weekly = rounds[3].checks;
    const auto is_ph = [](const Check& check) { return check.reading && check.reading->unit == "pH"; };
    EXPECT_EQ(std::count_if(weekly.begin(), weekly.end(), is_ph), 1) << set->kind;
    for (const Task& task : set->tasks) {
      EXPECT_EQ(task.quantity_unit.has_value(), task.work == WorkType::top_up) << set->kind << " " << task.key;
    }
  }
}

TEST(ShopFile, TheDemoShopHas24MachinesOfSixKindsInThreeCells) {
  const auto shop = parse_shop(text_of(in_source("demo/shop.toml")), "shop.toml");
  ASSERT_TRUE(shop.has_value()) << shop.error().message;
  std::set<std::string> kinds;
  for (const Machine& machine : shop->machines) kinds.insert(machine.kind);
  EXPECT_EQ(shop->machines.size(), 24u);
  EXPECT_EQ(kinds.size(), 6u);
  EXPECT_EQ(shop->cells.size(), 3u);
}

TEST(ShopFile, WhatCannotBeIsRefused) {
  const std::string head = "format = \"hourwright-shop-1\"\n[plant]\nname = \"P\"\nzone = \"Europe/Berlin\"\n";
  EXPECT_TRUE(parse_shop(head, "s.toml").has_value());
  const auto message = [&](const std::string& more) { return parse_shop(head + more, "s.toml").error().message; };
  EXPECT_NE(message("[[machine]]\nkey=\"m\"\nname=\"M\"\nkind=\"lathe\"\ncell=\"c\"\n").find("not there"),
            std::string::npos);
  EXPECT_NE(message("[[shift]]\nname=\"e\"\nstarts=\"6:00\"\nends=\"14:00\"\nweekdays=[1]\n").find("06:00"),
            std::string::npos);
  EXPECT_NE(message("[[shift]]\nname=\"e\"\nstarts=\"06:00\"\nends=\"14:00\"\nweekdays=[0]\n").find("Monday"),
            std::string::npos);
  EXPECT_NE(message("[[closed]]\ndate=\"2026-02-30\"\nwhy=\"x\"\n").find("2026-03-02"), std::string::npos);
  for (const char* clock : {"6x:00", "06:3y", "-1:00", "+6:00", "24:00", "06:60", "06.00", "006:0"}) {
    const std::string shift =
        fmt::format("[[shift]]\nname=\"e\"\nstarts=\"{}\"\nends=\"14:00\"\nweekdays=[1]\n", clock);
    EXPECT_NE(message(shift).find("06:00"), std::string::npos) << clock;
  }
  const std::string holiday = "[[closed]]\ndate=\"2026-12-24\"\nwhy=\"x\"\n";
  EXPECT_NE(message(holiday + holiday).find("\"2026-12-24\" stands twice"), std::string::npos);
  const std::string ada = "[[person]]\nname=\"Ada\"\nskill=\"operator\"\n";
  EXPECT_NE(message(ada + ada).find("\"Ada\" stands twice"), std::string::npos);
}

}  // namespace
}  // namespace hw::catalogue
