#pragma once
// A month of the calendar, from the first local day to the last.

#include <compare>
#include <string>
#include <string_view>

#include "libs/values/local_date.h"

namespace hw::month {

struct CalendarMonth {
  LocalDate first;  // always the first day of a month

  LocalDate last() const { return add_months(first, 1) - 1; }
  CalendarMonth before() const { return {add_months(first, -1)}; }
  CalendarMonth after() const { return {add_months(first, 1)}; }
  auto operator<=>(const CalendarMonth&) const = default;
};

CalendarMonth month_of(LocalDate day);

// "2026-11". Refuses (bad_input) anything else.
Result<CalendarMonth> parse_month(std::string_view text);
std::string print(CalendarMonth month);

}  // namespace hw::month
