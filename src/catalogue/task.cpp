#include "src/catalogue/task.h"

#include <algorithm>
#include <cmath>
#include <set>

#include "libs/values/characters.h"

namespace hw::catalogue {
namespace {

constexpr double minutes_max = 10'080;
constexpr std::size_t title_max = 120;
constexpr std::size_t reading_word_max = 60;
constexpr std::size_t unit_max = 20;
constexpr int days_max = 3660;

Result<void> check(const CounterTrigger& trigger) {
  if (trigger.counter.empty()) return refuse(ErrorCode::bad_input, "counter: name the counter, for example operating");
  if (!(trigger.interval > 0) || !std::isfinite(trigger.interval)) {
    return refuse(ErrorCode::bad_input, "interval: {} is no interval; it is above 0, for example 400",
                  trigger.interval);
  }
  if (!(trigger.heads_up >= 0) || trigger.heads_up >= trigger.interval) {
    return refuse(ErrorCode::bad_input, "heads_up: {} must be at least 0 and below the interval of {}",
                  trigger.heads_up, trigger.interval);
  }
  if (!(trigger.tolerance >= 0) || !std::isfinite(trigger.tolerance)) {
    return refuse(ErrorCode::bad_input, "tolerance: {} must be at least 0", trigger.tolerance);
  }
  return {};
}

Result<void> check(const CalendarTrigger& trigger) {
  if (trigger.heads_up_days < 0 || trigger.heads_up_days > days_max) {
    return refuse(ErrorCode::bad_input, "heads_up_days: {} must be 0 to {}", trigger.heads_up_days, days_max);
  }
  if (trigger.tolerance_days < 0 || trigger.tolerance_days > days_max) {
    return refuse(ErrorCode::bad_input, "tolerance_days: {} must be 0 to {}", trigger.tolerance_days, days_max);
  }
  return {};
}

Result<void> check(const ReadingTrigger& trigger) {
  if (trigger.reading.empty()) {
    return refuse(ErrorCode::bad_input, "reading: name what is read, for example supply air");
  }
  if (trigger.of.empty()) return refuse(ErrorCode::bad_input, "of: name the task that reads it, by its key");
  if (trigger.heads_up_days < 0 || trigger.heads_up_days > days_max) {
    return refuse(ErrorCode::bad_input, "heads_up_days: {} must be 0 to {}", trigger.heads_up_days, days_max);
  }
  return {};
}

bool is_finite(const Bounds& bounds) {
  return std::isfinite(bounds.min.value_or(0)) && std::isfinite(bounds.max.value_or(0));
}

Result<void> check_limits(const TaskReading& reading) {
  if (!is_finite(reading.warning) || !is_finite(reading.action)) {
    return refuse(ErrorCode::bad_input, "a limit is a finite number; leave the end out that has none");
  }
  const Bounds& warning = reading.warning;
  const Bounds& action = reading.action;
  if (action.min && warning.min && *action.min > *warning.min) {
    return refuse(ErrorCode::bad_input, "action.min: {} must not be above warning.min, {}", *action.min, *warning.min);
  }
  if (action.max && warning.max && *action.max < *warning.max) {
    return refuse(ErrorCode::bad_input, "action.max: {} must not be below warning.max, {}", *action.max, *warning.max);
  }
  const auto lowest = warning.min ? warning.min : action.min;
  const auto highest = warning.max ? warning.max : action.max;
  if (lowest && highest && *lowest >= *highest) {
    return refuse(ErrorCode::bad_input, "limits: {} to {} leaves nothing between; min is below max", *lowest, *highest);
  }
  return {};
}

Result<void> check(const TaskReading& reading) {
  if (reading.what.empty() || characters_in(reading.what) > reading_word_max) {
    return refuse(ErrorCode::bad_input, "what: it has 1 to {} characters, for example pH", reading_word_max);
  }
  if (reading.unit.empty() || characters_in(reading.unit) > unit_max) {
    return refuse(ErrorCode::bad_input, "unit: it has 1 to {} characters, for example bar", unit_max);
  }
  return check_limits(reading);
}

Result<void> check_readings(const std::vector<TaskReading>& readings) {
  for (std::size_t i = 0; i < readings.size(); ++i) {
    const std::string place = fmt::format("readings[{}]", i);
    if (auto checked = check(readings[i]); !checked) return refuse(checked.error().at(place));
    for (std::size_t before = 0; before < i; ++before) {
      if (readings[before].what != readings[i].what) continue;
      return refuse(ErrorCode::bad_input, "{}: what: \"{}\" stands twice; each is read once", place, readings[i].what);
    }
  }
  return {};
}

Result<void> check_quantity_unit(const Task& task) {
  if (!task.quantity_unit) return {};
  if (task.work != WorkType::top_up) {
    return refuse(ErrorCode::bad_input, "quantity_unit: it belongs to a top up; leave it out");
  }
  if (task.quantity_unit->empty() || characters_in(*task.quantity_unit) > unit_max) {
    return refuse(ErrorCode::bad_input, "quantity_unit: it has 1 to {} characters, for example l", unit_max);
  }
  return {};
}

Result<void> check_after(const Task& task) {
  std::set<std::string_view> named;
  for (const std::string& other : task.after) {
    if (other == task.key) return refuse(ErrorCode::bad_input, "after: a task cannot come after itself");
    if (!named.insert(other).second) return refuse(ErrorCode::bad_input, "after: \"{}\" stands twice", other);
  }
  return {};
}

Result<void> check_costs(const std::optional<PartCosts>& costs) {
  if (!costs) return {};
  constexpr double part_money_max = 1e7;
  const auto is_money = [](double value) { return value >= 0 && value <= part_money_max; };
  if (!is_money(costs->parts)) return refuse(ErrorCode::bad_input, "costs: parts: {} must be 0 to 1e7", costs->parts);
  if (!is_money(costs->failed_damage)) {
    return refuse(ErrorCode::bad_input, "costs: failed_damage: {} must be 0 to 1e7", costs->failed_damage);
  }
  if (!(costs->failed_hours >= 0) || costs->failed_hours > 1000) {
    return refuse(ErrorCode::bad_input, "costs: failed_hours: {} must be 0 to 1,000 hours", costs->failed_hours);
  }
  if (costs->wear && !(*costs->wear >= 0.1 && *costs->wear <= 30)) {
    return refuse(ErrorCode::bad_input, "costs: wear: {} must be 0.1 to 30", *costs->wear);
  }
  return {};
}

Result<void> check_triggers(const std::vector<Trigger>& triggers) {
  if (triggers.empty()) return refuse(ErrorCode::bad_input, "triggers: a task needs at least one");
  for (std::size_t i = 0; i < triggers.size(); ++i) {
    const auto checked = std::visit([](const auto& trigger) { return check(trigger); }, triggers[i]);
    if (!checked) return refuse(checked.error().at(fmt::format("triggers[{}]", i)));
  }
  return {};
}

}  // namespace

Result<void> check(const Task& task) {
  if (task.title.empty() || characters_in(task.title) > title_max) {
    return refuse(ErrorCode::bad_input, "title: it has 1 to {} characters", title_max);
  }
  if (task.assembly.empty()) return refuse(ErrorCode::bad_input, "assembly: name the assembly, for example spindle");
  if (!(task.minutes >= 0 && task.minutes <= minutes_max)) {
    return refuse(ErrorCode::bad_input, "minutes: {} must be 0 to {}", task.minutes, minutes_max);
  }
  for (const Part& part : task.parts) {
    if (!(part.quantity > 0) || !std::isfinite(part.quantity) || part.name.empty()) {
      return refuse(ErrorCode::bad_input, "parts: a part has a name and a quantity above 0");
    }
  }
  HW_TRY(check_readings(task.readings));
  HW_TRY(check_quantity_unit(task));
  HW_TRY(check_after(task));
  HW_TRY(check_costs(task.costs));
  return check_triggers(task.triggers);
}

const CounterTrigger* first_counter(const Task& task) {
  for (const Trigger& trigger : task.triggers) {
    if (const auto* counter = std::get_if<CounterTrigger>(&trigger)) return counter;
  }
  return nullptr;
}

Result<void> check_precedence(const std::vector<Task>& tasks) {
  std::set<std::string_view> waiting;
  for (const Task& task : tasks) waiting.insert(task.key);
  const auto waits = [&](const std::string& other) { return waiting.contains(other); };
  for (std::size_t before = 0; before != waiting.size();) {
    before = waiting.size();
    for (const Task& task : tasks) {
      if (std::none_of(task.after.begin(), task.after.end(), waits)) waiting.erase(task.key);
    }
  }
  if (waiting.empty()) return {};
  return refuse(ErrorCode::bad_input, "after: \"{}\" waits for itself by way of what it comes after", *waiting.begin());
}

}  // namespace hw::catalogue
