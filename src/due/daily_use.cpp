#include "src/due/daily_use.h"

#include <algorithm>
#include <cmath>

namespace hw::due {
namespace {

constexpr double hours_per_day_max = 25;
constexpr double use_max = 1e15;  // beyond it sums lose whole units

Result<void> check_day(const UseDay& day, const UseHistory& history) {
  if (day.on >= history.start) {
    return refuse(ErrorCode::bad_input, "history, {}: the day is not before the start, {}", print(day.on),
                  print(history.start));
  }
  if (!std::isfinite(day.used) || day.used < 0 || day.used > use_max) {
    return refuse(ErrorCode::bad_input, "history, {}: use must be a number from 0 to 1e15, not {}", print(day.on),
                  day.used);
  }
  if (history.unit == UseUnit::hours && day.used > hours_per_day_max) {
    return refuse(ErrorCode::bad_input, "history, {}: a day has at most {} h, not {}", print(day.on), hours_per_day_max,
                  day.used);
  }
  return {};
}

Result<std::vector<UseDay>> in_order(const UseHistory& history) {
  std::vector<UseDay> days = history.days;
  std::sort(days.begin(), days.end(), [](const UseDay& a, const UseDay& b) { return a.on < b.on; });
  for (std::size_t n = 0; n < days.size(); ++n) {
    HW_TRY(check_day(days[n], history));
    if (n > 0 && days[n].on == days[n - 1].on) {
      return refuse(ErrorCode::bad_input, "history: {} stands there twice", print(days[n].on));
    }
  }
  std::erase_if(days, [&](const UseDay& day) { return history.start - day.on > history_days_max; });
  return days;
}

void close(PastUse& past, const UseHistory& history) {
  for (const LocalDate day : history.closed) {
    if (day < past.first_on || day >= history.start) continue;
    PastDay& closed = past.days[static_cast<std::size_t>(day - past.first_on)];
    if (closed.used > 0) continue;
    closed.is_closed = true;
    closed.is_counted = false;
  }
}

}  // namespace

Result<PastUse> arrange(const UseHistory& history) {
  HW_TAKE(days, in_order(history));
  PastUse past{history.start, {}, 0, 0};
  if (!days.empty()) past.first_on = days.front().on;
  past.days.resize(static_cast<std::size_t>(history.start - past.first_on));
  for (const UseDay& day : days) past.days[static_cast<std::size_t>(day.on - past.first_on)] = {day.used, true, false};
  past.known_days = static_cast<int>(days.size());
  close(past, history);
  const auto counted = std::count_if(past.days.begin(), past.days.end(), [](const PastDay& d) { return d.is_counted; });
  past.unknown_days = static_cast<int>(std::count_if(
      past.days.begin(), past.days.end(), [](const PastDay& day) { return !day.is_counted && !day.is_closed; }));
  if (counted < history_days_min) {
    return refuse(ErrorCode::bad_input, "history: {} open days with a record carry no range; at least {} are needed",
                  counted, history_days_min);
  }
  return past;
}

}  // namespace hw::due
