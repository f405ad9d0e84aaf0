#include "src/service/overdue_since.h"

#include "src/due/task_state.h"

namespace hw::service {
namespace {

std::optional<LocalDate> passed_on(double over, LocalDate today, const CounterUse* use, double used_today) {
  over -= used_today;
  if (over < 0) return today;
  if (!use) return std::nullopt;
  const auto& days = use->counted;
  for (auto day = days.rbegin(); day != days.rend(); ++day) {
    over -= day->used;
    if (over < 0) return day->on;
  }
  return std::nullopt;
}

}  // namespace

std::optional<LocalDate> overdue_since(const TriggerView& trigger, LocalDate today, const CounterUse* use,
                                       double used_today) {
  if (trigger.state != word_of(due::TaskState::overdue)) return std::nullopt;
  if (trigger.due_on) return *trigger.due_on + trigger.tolerance_days.value_or(0) + 1;
  return passed_on(-*trigger.left - trigger.tolerance.value_or(0), today, use, used_today);
}

std::optional<LocalDate> overdue_since(const TaskView& task, LocalDate today, const UseOf& use_of,
                                       const UsedToday& used_today) {
  std::optional<LocalDate> earliest;
  for (const TriggerView& trigger : task.triggers) {
    const CounterUse* use = trigger.counter ? use_of(*trigger.counter) : nullptr;
    const double used = trigger.counter ? used_today(*trigger.counter) : 0;
    const auto since = overdue_since(trigger, today, use, used);
    if (since && (!earliest || *since < *earliest)) earliest = since;
  }
  return earliest;
}

}  // namespace hw::service
