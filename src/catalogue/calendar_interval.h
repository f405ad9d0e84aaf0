#pragma once
// "12 months", "1 week", "1 shift": how often something is done by the calendar. "1 start-up": before the machine is
// started on a working day.

#include <string>
#include <string_view>

#include "libs/values/result.h"

namespace hw::catalogue {

struct CalendarInterval {
  enum class Unit { start_up, shift, day, week, month, year };
  int count = 1;  // 1 to 1,000; years to 100; start-ups 1
  Unit unit = Unit::day;
  bool operator==(const CalendarInterval&) const = default;
};

// Reads a whole number, a blank and start-up, shift, day, week, month or year, with or without a plural s.
Result<CalendarInterval> parse_calendar_interval(std::string_view text);
std::string print(const CalendarInterval& interval);

}  // namespace hw::catalogue
