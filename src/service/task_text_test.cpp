#include "src/service/task_text.h"

#include <gtest/gtest.h>

#include "libs/formats/json.h"

namespace hw::service {
namespace {

TaskText bare_text() {
  TaskText text;
  text.title = "Clean the filter";
  text.assembly = "coolant";
  text.work = "clean";
  text.skill = "operator";
  text.energy = "powered at rest";
  text.minutes = 10;
  TriggerText trigger;
  trigger.counter = "operating";
  trigger.interval = 400;
  text.triggers = {trigger};
  return text;
}

std::string refusal(const TaskText& text) {
  const auto task = task_of("key", text);
  EXPECT_FALSE(task);
  return task ? "" : task.error().message;
}

TEST(TaskText, ATaskBecomesTextAndComesBackEqual) {
  const catalogue::Task task{
      .key = "k",
      .title = "T",
      .assembly = "a",
      .point = 3,
      .work = catalogue::WorkType::top_up,
      .skill = catalogue::Skill::outside_service,
      .energy = catalogue::EnergyState::in_production,
      .minutes = 0.1,
      .triggers = {catalogue::CounterTrigger{"spindle S1", 1.0 / 3, 0.1, 1e-9},
                   catalogue::CalendarTrigger{{2, catalogue::CalendarInterval::Unit::week}, 3, 4}},
      .steps = {"one", "two"},
      .reason = "r",
      .caution = "c",
      .parts = {{"Oil", 0.3, "l"}},
      .readings = {{"air", "bar", {5.5, {}}, {5.0, 10.0}}, {"pH", "pH", {}, {}}},
      .quantity_unit = "l",
      .after = {"drain"}};
  EXPECT_EQ(*task_of("k", text_of(task)), task);
  const auto printed = formats::print_json(text_of(task));
  EXPECT_EQ(*task_of("k", *formats::parse_json<TaskText>(printed)), task);
}

TEST(TaskText, WhatIsLeftOutIsEmpty) {
  const auto task = *task_of("k", bare_text());
  EXPECT_TRUE(task.steps.empty());
  EXPECT_TRUE(task.parts.empty());
  EXPECT_EQ(task.reason, "");
  EXPECT_FALSE(task.point);
  EXPECT_TRUE(task.readings.empty());
  EXPECT_FALSE(task.quantity_unit);
  EXPECT_EQ(std::get<catalogue::CounterTrigger>(task.triggers.at(0)).heads_up, 0);
}

TEST(TaskText, ATaskWithoutReadingsIsTheTextThatItAlwaysWas) {
  const auto printed = formats::print_json(text_of(*task_of("k", bare_text())));
  EXPECT_EQ(printed.find("readings"), std::string::npos) << printed;
  EXPECT_EQ(printed.find("quantity_unit"), std::string::npos) << printed;
  EXPECT_EQ(printed.find("after"), std::string::npos) << printed;
}

TEST(TaskText, AReadingIsRefusedByItsPlaceAndField) {
  auto text = bare_text();
  text.readings = {{"pH", "pH", {}, {}}, {"air", "bar", BoundsText{}, {}}};
  EXPECT_TRUE(refusal(text).starts_with("readings[1]: warning: it has min")) << refusal(text);
  text.readings->at(1) = {"air", "bar", BoundsText{5.0, {}}, BoundsText{6.0, {}}};
  EXPECT_TRUE(refusal(text).starts_with("readings[1]: action.min")) << refusal(text);
  text = bare_text();
  text.quantity_unit = "l";
  EXPECT_TRUE(refusal(text).starts_with("quantity_unit: ")) << refusal(text);
}

TEST(TaskText, WordsThatAreNotKnownAreNamedByTheirField) {
  auto text = bare_text();
  text.work = "oil";
  EXPECT_TRUE(refusal(text).starts_with("work: ")) << refusal(text);
  text = bare_text();
  text.skill = "wizard";
  EXPECT_TRUE(refusal(text).starts_with("skill: ")) << refusal(text);
  text = bare_text();
  text.energy = "off";
  EXPECT_TRUE(refusal(text).starts_with("energy: ")) << refusal(text);
}

TEST(TaskText, ATriggerIsOfACounterTheCalendarOrAReading) {
  auto text = bare_text();
  text.triggers.at(0).calendar = "1 week";
  EXPECT_TRUE(refusal(text).starts_with("triggers[0]: a trigger has one of these")) << refusal(text);
  text.triggers.at(0) = {};
  EXPECT_TRUE(refusal(text).starts_with("triggers[0]: a trigger has one of these")) << refusal(text);
  text = bare_text();
  text.triggers.at(0).heads_up_days = 3;
  EXPECT_NE(refusal(text).find("heads_up_days"), std::string::npos);
  text = bare_text();
  text.triggers.at(0).interval.reset();
  EXPECT_TRUE(refusal(text).starts_with("triggers[0]: interval")) << refusal(text);
  TriggerText calendar;
  calendar.calendar = "1 week";
  calendar.heads_up = 3;
  text = bare_text();
  text.triggers.push_back(calendar);
  EXPECT_TRUE(refusal(text).starts_with("triggers[1]: ")) << refusal(text);
  text.triggers.at(1).heads_up.reset();
  text.triggers.at(1).calendar = "weekly";
  EXPECT_TRUE(refusal(text).starts_with("triggers[1]: calendar: ")) << refusal(text);
  text.triggers.clear();
  EXPECT_NE(refusal(text).find("at least one"), std::string::npos);
}

TEST(TaskText, ATitleHas120CharactersWhateverTheirBytes) {
  auto text = bare_text();
  text.title.clear();
  for (int i = 0; i < 120; ++i) text.title += "ä";
  EXPECT_TRUE(task_of("k", text));
  text.title += "ä";
  EXPECT_FALSE(task_of("k", text));
}

}  // namespace
}  // namespace hw::service
