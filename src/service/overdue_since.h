#pragma once
// Since which day a task is overdue, as far as the days of its counters tell.

#include <optional>

#include "src/service/task_forecast.h"

namespace hw::service {

// The first day on which the tolerance was used up: by the calendar exactly; on a counter the day on which it passed
// interval and tolerance, counted back from now by what was used on each day. Nothing where the trigger is not overdue,
// or where the known days do not reach back so far.
std::optional<LocalDate> overdue_since(const TriggerView& trigger, LocalDate today, const CounterUse* use,
                                       double used_today);

// The earliest of the task's triggers.
std::optional<LocalDate> overdue_since(const TaskView& task, LocalDate today, const UseOf& use_of,
                                       const UsedToday& used_today);

}  // namespace hw::service
