#pragma once
// A maintenance task: what is done to which assembly, how often, by whom, in which energy state, and why.

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "src/catalogue/calendar_interval.h"
#include "src/catalogue/work_words.h"

namespace hw::catalogue {

// Due when a counter has run on by `interval` since the task was last done; all three in the counter's unit (h for
// hours).
struct CounterTrigger {
  std::string counter;   // the counter's key: "operating"
  double interval = 0;   // > 0
  double heads_up = 0;   // >= 0: the first notice, this much before
  double tolerance = 0;  // >= 0: overdue beyond this
  bool operator==(const CounterTrigger&) const = default;
};

// Due by the calendar of the plant.
struct CalendarTrigger {
  CalendarInterval every;
  int heads_up_days = 0;
  int tolerance_days = 0;
  bool operator==(const CalendarTrigger&) const = default;
};

// Due when another task's reading, on the same machine, is beyond its limit: on whichever side it has that limit. Only
// what was read since the task was last done counts.
struct ReadingTrigger {
  std::string reading;  // what is read: "supply air"
  std::string of;       // the key of the task that reads it
  LimitKind limit = LimitKind::warning;
  int heads_up_days = 0;  // >= 0: coming from so many days before the limit is met with 10 %
  bool operator==(const ReadingTrigger&) const = default;
};

using Trigger = std::variant<CounterTrigger, CalendarTrigger, ReadingTrigger>;

struct Part {
  std::string name;
  double quantity = 0;  // > 0, in `unit`
  std::string unit;     // pc, l, kg, m
  bool operator==(const Part&) const = default;
};

// The ends between which a value lies; an end that is not there sets no limit.
struct Bounds {
  std::optional<double> min;
  std::optional<double> max;
  bool operator==(const Bounds&) const = default;
};

// What is read off and written down when the task is done. Outside `warning` it wants watching, outside `action` it
// wants doing something; a value on a limit is still within it.
struct TaskReading {
  std::string what;  // "pH", "supply air": apart from the task's other readings
  std::string unit;  // bar, °C, %, pH
  Bounds warning;
  Bounds action;
  bool operator==(const TaskReading&) const = default;
};

// What decides which interval costs least, in the shop's currency. What is not known is 0.
struct PartCosts {
  double parts = 0;                 // of one doing: what is put in
  double failed_hours = 0;          // that the machine stands when the part fails unforeseen, beside the work itself
  double failed_damage = 0;         // scrap, damage and rush of such a failure
  std::optional<double> wear = {};  // shape of its life when somebody moved its interval by its lives, 0.1 to 30
  bool operator==(const PartCosts&) const = default;
};

struct Task {
  std::string key;  // within its machine
  std::string title;
  std::string assembly;
  std::optional<int> point;
  WorkType work = WorkType::inspect;
  Skill skill = Skill::machine_operator;
  EnergyState energy = EnergyState::powered_at_rest;
  double minutes = 0;             // hands on, 0 to 10,080 (a week)
  std::vector<Trigger> triggers;  // at least one; the first that falls due decides
  std::vector<std::string> steps;
  std::string reason;
  std::string caution;
  std::vector<Part> parts;
  std::vector<TaskReading> readings;         // may be none
  std::optional<std::string> quantity_unit;  // of a top up: in which the quantity filled in is written down
  std::vector<std::string> after;            // keys of tasks that come before it where both are done in one stop
  Demand demanded_by = Demand::nobody;       // safety: it keeps people from harm
  std::optional<PartCosts> costs = {};
  bool operator==(const Task&) const = default;
};

// The first of its triggers that is on a counter; null where none is.
const CounterTrigger* first_counter(const Task& task);

// Refuses what no task can be: no title, no trigger, an interval that is not above zero, a negative heads-up or
// tolerance, a heads-up as long as its interval, minutes out of range, a reading without a name or unit or with limits
// that leave nothing between them or an action limit inside the warning limits, a task that comes after itself or after
// another twice, costs below 0 or beyond 1e7 (failed_hours: 1,000). The message names the field.
Result<void> check(const Task& task);

// Refuses a trigger by a reading that could never be judged: the task or reading is not among them, the reading has no
// such limit, it is read only when the task itself is done, or by a task that a reading alone makes due. The message
// names task and trigger.
Result<void> check_reading_triggers(const std::vector<Task>& tasks);

// Refuses tasks that wait for each other by their `after`, so that none could begin. What an `after` names that is not
// among them does not matter.
Result<void> check_precedence(const std::vector<Task>& tasks);

}  // namespace hw::catalogue
