#include "src/plan/slot_calendar.h"

#include <algorithm>

namespace hw::plan {
namespace {

bool is_among(const std::vector<int>& days, int day) { return std::find(days.begin(), days.end(), day) != days.end(); }

bool is_closed(const Instance& instance, int day) {
  return instance.closed_days && is_among(*instance.closed_days, day);
}

double absent_hours(const Crew& crew, DayShift slot) {
  double sum = 0;
  if (!crew.absent) return sum;
  for (const Absence& absence : *crew.absent) {
    if (absence.day == slot.day && absence.shift == slot.shift) sum += absence.hours;
  }
  return sum;
}

}  // namespace

double loss_per_hour(const Instance& instance, const Machine& machine, DayShift slot) {
  return is_closed(instance, slot.day) ? 0 : of_week(machine.loss_per_hour, slot);
}

CrewHours crew_hours(const Instance& instance, const Crew& crew, DayShift slot) {
  if (is_closed(instance, slot.day) || is_among(crew.days_off, slot.day)) return {};
  return {std::max(0.0, of_week(crew.hours, slot) - absent_hours(crew, slot)), of_week(crew.overtime_hours, slot)};
}

bool may_stop(const Machine& machine, int day) {
  return std::none_of(machine.blackouts.begin(), machine.blackouts.end(),
                      [&](const auto& days) { return days[0] <= day && day <= days[1]; });
}

}  // namespace hw::plan
