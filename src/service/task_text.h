#pragma once
// A task as text: in the database's rows and, with a signature, in the API. The words are those of the catalogue.

#include <optional>
#include <string>
#include <vector>

#include <boost/describe.hpp>

#include "src/catalogue/task.h"

namespace hw::service {

// Exactly one of `counter` (with `interval`), `calendar` and `reading` (with `of` and `limit`).
struct TriggerText {
  std::optional<std::string> counter;
  std::optional<double> interval;
  std::optional<double> heads_up;
  std::optional<double> tolerance;
  std::optional<std::string> calendar;
  std::optional<int> heads_up_days;
  std::optional<int> tolerance_days;
  std::optional<std::string> reading;
  std::optional<std::string> of;
  std::optional<std::string> limit;
};
BOOST_DESCRIBE_STRUCT(TriggerText, (),
                      (counter, interval, heads_up, tolerance, calendar, heads_up_days, tolerance_days, reading, of,
                       limit))

struct PartText {
  std::string name;
  double quantity = 0;
  std::string unit;
};
BOOST_DESCRIBE_STRUCT(PartText, (), (name, quantity, unit))

// At least one of the two.
struct BoundsText {
  std::optional<double> min;
  std::optional<double> max;
};
BOOST_DESCRIBE_STRUCT(BoundsText, (), (min, max))

struct TaskReadingText {
  std::string what;
  std::string unit;
  std::optional<BoundsText> warning;
  std::optional<BoundsText> action;
};
BOOST_DESCRIBE_STRUCT(TaskReadingText, (), (what, unit, warning, action))

struct PartCostsText {
  std::optional<double> parts;
  std::optional<double> failed_hours;
  std::optional<double> failed_damage;
  std::optional<double> wear;
};
BOOST_DESCRIBE_STRUCT(PartCostsText, (), (parts, failed_hours, failed_damage, wear))

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
  std::optional<std::vector<TaskReadingText>> readings;
  std::optional<std::string> quantity_unit;
  std::optional<std::vector<std::string>> after;
  std::optional<std::string> demanded_by;
  std::optional<PartCostsText> costs;
};
BOOST_DESCRIBE_STRUCT(TaskText, (),
                      (title, assembly, point, work, skill, energy, minutes, triggers, steps, reason, caution, parts,
                       readings, quantity_unit, after, demanded_by, costs))

// What is left out of the optional fields is empty. Refuses unknown words, a trigger that is neither or both, and what
// catalogue::check refuses; the message names the field.
Result<catalogue::Task> task_of(std::string key, const TaskText& text);
// Readings, quantity unit, what comes before, who demands it and costs are left out where the task has none.
TaskText text_of(const catalogue::Task& task);
TaskReadingText text_of(const catalogue::TaskReading& reading);

}  // namespace hw::service
