#pragma once
// A machine with a round of each shift for the tests of this folder: "air/supply air" (a reading in bar, warning
// outside 5.5 to 6.5, action outside 5 to 7), "window" (a clean), "coolant" (a top up in l).

#include "src/service/open_shop.h"
#include "src/service/round_edits.h"

namespace hw::service {

inline TaskRecord round_task(std::string key, catalogue::WorkType work, Instant began_at = Instant{}) {
  TaskRecord record;
  record.task.key = std::move(key);
  record.task.title = "Task " + record.task.key;
  record.task.work = work;
  record.task.triggers = {catalogue::CalendarTrigger{*catalogue::parse_calendar_interval("1 shift"), 0, 0}};
  record.began_at = began_at;
  return record;
}

inline void set_up_round(OpenMachine& machine, Instant began_at = Instant{}) {
  machine.record.machine.key = "m1";
  auto air = round_task("air", catalogue::WorkType::measure, began_at);
  air.task.readings = {{"supply air", "bar", {5.5, 6.5}, {5, 7}}};
  auto coolant = round_task("coolant", catalogue::WorkType::top_up, began_at);
  coolant.task.quantity_unit = "l";
  machine.record.tasks = {air, round_task("window", catalogue::WorkType::clean, began_at), coolant};
}

inline std::string test_id(int number) { return fmt::format("01941f29-7c00-7aaa-8bbb-{:012}", number); }

inline CheckAnswer answer_of(std::string check, std::string kind, std::string word = "as it should be") {
  CheckAnswer answer;
  answer.check = std::move(check);
  answer.kind = std::move(kind);
  answer.answer = std::move(word);
  return answer;
}

inline CheckAnswer reading_of(double value, std::string unit = "bar") {
  CheckAnswer answer;
  answer.check = "air/supply air";
  answer.kind = "reading";
  answer.value = value;
  answer.unit = std::move(unit);
  return answer;
}

inline AnswersEdit one_answer(CheckAnswer answer) {
  return {{test_id(2), "Ada", {}, {}}, test_id(1), false, {std::move(answer)}, {}};
}

}  // namespace hw::service
