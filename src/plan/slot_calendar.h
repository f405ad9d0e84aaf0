#pragma once
// What the calendar says of one slot: what standing costs there, and which hours of a crew there are. Weekdays, days
// off, closed days and absences counted in. The instance must be one that check_instance accepts; hours and money per
// hour.

#include "src/plan/instance.h"

namespace hw::plan {

struct DayShift {
  int day = 0;    // 0 to instance.days - 1
  int shift = 0;  // 0 to instance.shifts.size() - 1
  bool operator==(const DayShift&) const = default;
};

struct CrewHours {
  double offered = 0;
  double overtime = 0;  // beyond them, at most
};

// 0: the machine is not in production.
double loss_per_hour(const Instance& instance, const Machine& machine, DayShift slot);
CrewHours crew_hours(const Instance& instance, const Crew& crew, DayShift slot);
// No blackout forbids that the machine is stopped.
bool may_stop(const Machine& machine, int day);

// The number for that weekday and shift.
template <class Number>
Number of_week(const WeekTable<Number>& table, DayShift slot) {
  return table[static_cast<std::size_t>(slot.day % 7)][static_cast<std::size_t>(slot.shift)];
}

}  // namespace hw::plan
