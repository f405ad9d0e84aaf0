#pragma once
// A calendar day of a place, without a clock: the unit in which tasks fall due.

#include <compare>
#include <cstdint>
#include <string>
#include <string_view>

#include "libs/values/result.h"

namespace hw {

struct LocalDate {
  std::int32_t days = 0;  // since 1970-01-01 in the proleptic Gregorian calendar

  static LocalDate of(int year, unsigned month, unsigned day);  // the day must exist
  auto operator<=>(const LocalDate&) const = default;
  LocalDate& operator++() {
    ++days;
    return *this;
  }
};

constexpr LocalDate operator+(LocalDate date, int days) { return {date.days + days}; }
constexpr LocalDate operator-(LocalDate date, int days) { return {date.days - days}; }
constexpr int operator-(LocalDate a, LocalDate b) { return a.days - b.days; }

// 1 (Monday) to 7 (Sunday), ISO 8601.
int iso_weekday(LocalDate date);

// The same day n months on (n may be negative); where that month is shorter, its last day: 31 January + 1 month is
// 28 or 29 February.
LocalDate add_months(LocalDate date, int months);

// YYYY-MM-DD. Refuses days that do not exist and anything else.
Result<LocalDate> parse_local_date(std::string_view text);
std::string print(LocalDate date);

}  // namespace hw
