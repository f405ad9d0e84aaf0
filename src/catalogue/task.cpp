#include "src/catalogue/task.h"

#include <cmath>

#include "libs/values/characters.h"

namespace hw::catalogue {
namespace {

constexpr double minutes_max = 10'080;
constexpr std::size_t title_max = 120;
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
  return check_triggers(task.triggers);
}

}  // namespace hw::catalogue
