// A trigger by a reading, held against the tasks of its machine.

#include <gtest/gtest.h>

#include "src/catalogue/task.h"
#include "src/catalogue/work_words.h"

namespace hw::catalogue {
namespace {

Task reads_air() {
  Task task;
  task.key = "air";
  task.title = "Read the air";
  task.triggers = {CounterTrigger{"operating", 8, 0, 0}};
  task.readings = {{"supply air", "bar", {5.5, {}}, {}}};
  return task;
}

Task replaces_filter(ReadingTrigger trigger) {
  Task task;
  task.key = "filter";
  task.title = "Replace the air filter";
  task.triggers = {std::move(trigger)};
  return task;
}

std::string refusal_of(const ReadingTrigger& trigger) {
  const auto checked = check_reading_triggers({reads_air(), replaces_filter(trigger)});
  return checked ? "" : checked.error().message;
}

TEST(ReadingTrigger, OfAReadingThatSomebodyTakesIsRight) {
  EXPECT_EQ(refusal_of({"supply air", "air", LimitKind::warning, 7}), "");
  EXPECT_EQ(word_of(LimitKind::action), "action");
  EXPECT_EQ(*parse_limit_kind("warning"), LimitKind::warning);
  EXPECT_FALSE(parse_limit_kind("alarm"));
}

TEST(ReadingTrigger, SaysWhichTaskReadingOrLimitIsNotThere) {
  EXPECT_EQ(refusal_of({"supply air", "oil", LimitKind::warning, 0}),
            "task filter, triggers[0]: of: the machine has no task \"oil\"");
  EXPECT_EQ(refusal_of({"oil", "air", LimitKind::warning, 0}),
            "task filter, triggers[0]: reading: \"Read the air\" reads no \"oil\"");
  EXPECT_EQ(refusal_of({"supply air", "air", LimitKind::action, 0}),
            "task filter, triggers[0]: limit: \"supply air\" of \"Read the air\" has no action limit; set one, or name "
            "the other");
}

TEST(ReadingTrigger, OfWhatNobodyReadsIsRefused) {
  EXPECT_NE(refusal_of({"supply air", "filter", LimitKind::warning, 0}).find("the task itself"), std::string::npos);
  Task only_by_reading = reads_air();
  only_by_reading.triggers = {ReadingTrigger{"level", "oil", LimitKind::warning, 0}};
  Task oil = reads_air();
  oil.key = "oil";
  oil.readings = {{"level", "mm", {10, {}}, {}}};
  const auto checked =
      check_reading_triggers({oil, only_by_reading, replaces_filter({"supply air", "air", LimitKind::warning, 0})});
  ASSERT_FALSE(checked);
  EXPECT_NE(checked.error().message.find("nobody takes this reading"), std::string::npos);
}

}  // namespace
}  // namespace hw::catalogue
