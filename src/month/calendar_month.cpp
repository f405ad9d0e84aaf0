#include "src/month/calendar_month.h"

namespace hw::month {

CalendarMonth month_of(LocalDate day) {
  const std::string text = hw::print(day);
  const int day_of_month = (text[text.size() - 2] - '0') * 10 + (text.back() - '0');
  return {day - (day_of_month - 1)};
}

Result<CalendarMonth> parse_month(std::string_view text) {
  constexpr std::size_t length = std::string_view("2026-11").size();
  if (text.size() == length) {
    const auto first = parse_local_date(std::string(text) + "-01");
    if (first && *first >= LocalDate::of(1970, 1, 1) && *first < LocalDate::of(2200, 1, 1))
      return CalendarMonth{*first};
  }
  const std::string shown(text.substr(0, 40));
  return refuse(ErrorCode::bad_input, Saying{"no-month", {{"month", shown}}},
                "month: \"{}\" is none; right is a year and a month, such as 2026-11", shown);
}

std::string print(CalendarMonth month) { return hw::print(month.first).substr(0, 7); }

}  // namespace hw::month
