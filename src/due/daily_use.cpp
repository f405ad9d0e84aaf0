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
  if (day.days < 1 || day.days > history_days_max) {
    return refuse(ErrorCode::bad_input, "history, {}: known together are 1 to {} days, not {}", print(day.on),
                  history_days_max, day.days);
  }
  if (history.unit == UseUnit::hours && day.used > hours_per_day_max * day.days) {
    return refuse(ErrorCode::bad_input, "history, {}: a day has at most {} h, not {}", print(day.on), hours_per_day_max,
                  day.used);
  }
  return {};
}

LocalDate first_of_days(const UseDay& day) { return day.on - (day.days - 1); }

Result<std::vector<UseDay>> in_order(const UseHistory& history) {
  std::vector<UseDay> days = history.days;
  std::sort(days.begin(), days.end(), [](const UseDay& a, const UseDay& b) { return a.on < b.on; });
  for (std::size_t n = 0; n < days.size(); ++n) {
    HW_TRY(check_day(days[n], history));
    const LocalDate first = first_of_days(days[n]);
    if (n > 0 && first <= days[n - 1].on) {
      return refuse(ErrorCode::bad_input, "history: {} stands there twice", print(first));
    }
  }
  std::erase_if(days, [&](const UseDay& day) { return history.start - first_of_days(day) > history_days_max; });
  return days;
}

// The days of the past that are closed, but for those on which use is known to have been.
std::vector<char> closed_days(const PastUse& past, const UseHistory& history) {
  std::vector<char> closed(past.days.size(), 0);
  for (const LocalDate day : history.closed) {
    if (day >= past.first_on && day < history.start) closed[static_cast<std::size_t>(day - past.first_on)] = 1;
  }
  return closed;
}

// Of days that are known together, a closed one is known to be without use, unless all are closed.
void put(PastUse& past, const UseDay& day, const std::vector<char>& closed) {
  const auto begin = static_cast<std::size_t>(first_of_days(day) - past.first_on);
  const std::size_t end = begin + static_cast<std::size_t>(day.days);
  const auto open = std::count(closed.begin() + static_cast<std::ptrdiff_t>(begin),
                               closed.begin() + static_cast<std::ptrdiff_t>(end), char{0});
  const bool is_shared = day.days > 1 && day.used > 0;
  for (std::size_t n = begin; n < end; ++n) {
    past.days[n].is_continued = is_shared && n > begin;
    if (is_shared && open > 0 && closed[n] != 0) continue;
    past.days[n].used = day.used / (is_shared && open > 0 ? static_cast<double>(open) : day.days);
    past.days[n].is_counted = true;
    past.days[n].is_shared = is_shared;
  }
}

void close(PastUse& past, const std::vector<char>& closed) {
  for (std::size_t n = 0; n < closed.size(); ++n) {
    PastDay& day = past.days[n];
    if (closed[n] == 0 || day.used > 0) continue;
    day.is_closed = true;
    day.is_counted = false;
  }
}

}  // namespace

Result<PastUse> arrange(const UseHistory& history) {
  HW_TAKE(days, in_order(history));
  PastUse past{history.start, {}, 0, 0};
  if (!days.empty()) past.first_on = first_of_days(days.front());
  past.days.resize(static_cast<std::size_t>(history.start - past.first_on));
  const std::vector<char> closed = closed_days(past, history);
  for (const UseDay& day : days) {
    put(past, day, closed);
    past.known_days += day.days;
  }
  close(past, closed);
  const auto counted = std::count_if(past.days.begin(), past.days.end(), [](const PastDay& d) { return d.is_counted; });
  past.unknown_days = static_cast<int>(std::count_if(
      past.days.begin(), past.days.end(), [](const PastDay& day) { return !day.is_counted && !day.is_closed; }));
  if (counted < history_days_min) {
    return refuse(ErrorCode::bad_input,
                  Saying{"use-few-days", {}, {{"count", static_cast<double>(counted)}, {"needed", history_days_min}}},
                  "history: {} open days with a record carry no range; at least {} are needed", counted,
                  history_days_min);
  }
  return past;
}

}  // namespace hw::due
