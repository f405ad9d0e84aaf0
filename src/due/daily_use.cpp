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

int closed_between(std::vector<LocalDate> closed, LocalDate begin, LocalDate end) {
  std::sort(closed.begin(), closed.end());
  closed.erase(std::unique(closed.begin(), closed.end()), closed.end());
  return static_cast<int>(std::count_if(closed.begin(), closed.end(),
                                        [&](LocalDate day) { return day >= begin && day < end; }));
}

}  // namespace

Result<PastUse> arrange(const UseHistory& history) {
  HW_TAKE(days, in_order(history));
  PastUse past{history.start, {}, 0, 0};
  if (!days.empty()) past.first_on = days.front().on;
  past.days.resize(static_cast<std::size_t>(history.start - past.first_on));
  const auto at = [&](LocalDate on) -> PastDay& { return past.days[static_cast<std::size_t>(on - past.first_on)]; };
  for (const UseDay& day : days) at(day.on) = {day.used, true};
  past.known_days = static_cast<int>(days.size());
  int closed_unrecorded = closed_between(history.closed, past.first_on, history.start);
  for (const LocalDate closed : history.closed) {
    if (closed < past.first_on || closed >= history.start) continue;
    if (at(closed).is_counted && at(closed).used == 0) {
      at(closed).is_counted = false;
      --closed_unrecorded;
    } else if (at(closed).is_counted) {
      --closed_unrecorded;
    }
  }
  past.unknown_days = static_cast<int>(past.days.size()) - past.known_days - std::max(0, closed_unrecorded);
  const auto counted = std::count_if(past.days.begin(), past.days.end(), [](const PastDay& d) { return d.is_counted; });
  if (counted < history_days_min) {
    return refuse(ErrorCode::bad_input, "history: {} open days with a record carry no range; at least {} are needed",
                  counted, history_days_min);
  }
  return past;
}

}  // namespace hw::due
