#pragma once
// A task as text: in the database's rows and, with a signature, in the API. The words are those of the catalogue.

#include <optional>
#include <string>
#include <vector>

#include <boost/describe.hpp>

#include "src/catalogue/task.h"

namespace hw::service {

// Exactly one of `counter` (with `interval`) and `calendar`.
struct TriggerText {
  std::optional<std::string> counter;
  std::optional<double> interval;
  std::optional<double> heads_up;
  std::optional<double> tolerance;
  std::optional<std::string> calendar;
  std::optional<int> heads_up_days;
  std::optional<int> tolerance_days;
};
BOOST_DESCRIBE_STRUCT(TriggerText, (),
                      (counter, interval, heads_up, tolerance, calendar, heads_up_days, tolerance_days))

struct PartText {
  std::string name;
  double quantity = 0;
  std::string unit;
};
BOOST_DESCRIBE_STRUCT(PartText, (), (name, quantity, unit))

struct TaskText {
  std::string title;
  std::string assembly;
  std::optional<int> point;
  std::string work;
  std::string skill;
  std::string energy;
  double minutes = 0;
  std::vector<TriggerText> triggers;
  std::optional<std::vector<std::string>> steps;
  std::optional<std::string> reason;
  std::optional<std::string> caution;
  std::optional<std::vector<PartText>> parts;
};
BOOST_DESCRIBE_STRUCT(TaskText, (),
                      (title, assembly, point, work, skill, energy, minutes, triggers, steps, reason, caution, parts))

// Refuses unknown words, a trigger that is neither or both, and what catalogue::check refuses; the message names the
// field.
Result<catalogue::Task> task_of(std::string key, const TaskText& text);
TaskText text_of(const catalogue::Task& task);

}  // namespace hw::service
