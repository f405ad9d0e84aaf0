#include "libs/values/local_date.h"

#include <charconv>
#include <chrono>

#include "libs/values/assert.h"

namespace hw {
namespace {

std::chrono::year_month_day calendar_day(LocalDate date) { return std::chrono::sys_days{std::chrono::days{date.days}}; }

LocalDate from_calendar(std::chrono::year_month_day date) {
  return {static_cast<std::int32_t>(std::chrono::sys_days{date}.time_since_epoch().count())};
}

// Whole of `text` as a number; -1 where it is not.
int number_of(std::string_view text) {
  int value = -1;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  return error == std::errc{} && end == text.data() + text.size() ? value : -1;
}

}  // namespace

LocalDate LocalDate::of(int year, unsigned month, unsigned day) {
  const std::chrono::year_month_day date{std::chrono::year{year}, std::chrono::month{month}, std::chrono::day{day}};
  HW_ASSERT(date.ok(), "a day that exists");
  return from_calendar(date);
}

int iso_weekday(LocalDate date) {
  return static_cast<int>(std::chrono::weekday{std::chrono::sys_days{std::chrono::days{date.days}}}.iso_encoding());
}

LocalDate add_months(LocalDate date, int months) {
  auto moved = calendar_day(date) + std::chrono::months{months};
  if (!moved.ok()) moved = moved.year() / moved.month() / std::chrono::last;
  return from_calendar(moved);
}

Result<LocalDate> parse_local_date(std::string_view text) {
  if (text.size() == 10 && text[4] == '-' && text[7] == '-') {
    const int year = number_of(text.substr(0, 4));
    const int month = number_of(text.substr(5, 2));
    const int day = number_of(text.substr(8, 2));
    const std::chrono::year_month_day date{std::chrono::year{year}, std::chrono::month{static_cast<unsigned>(month)},
                                           std::chrono::day{static_cast<unsigned>(day)}};
    if (year >= 1 && month >= 1 && day >= 1 && date.ok()) return from_calendar(date);
  }
  return refuse(ErrorCode::bad_input, "\"{}\" is no day; a day looks like 2026-03-02", text.substr(0, 40));
}

std::string print(LocalDate date) {
  const auto day = calendar_day(date);
  return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(day.year()), static_cast<unsigned>(day.month()),
                     static_cast<unsigned>(day.day()));
}

}  // namespace hw
