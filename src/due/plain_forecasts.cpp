#include "src/due/plain_forecasts.h"

#include <algorithm>
#include <cmath>

#include "libs/values/assert.h"
#include "src/due/future_days.h"

namespace hw::due {
namespace {

// The last `days` days: their sum by weekday, and how many of them are known.
struct RecentUse {
  std::array<double, 7> by_weekday{};
  std::array<int, 7> known{};
  double sum = 0;
  int count = 0;

  RecentUse(const PastUse& past, int days) {
    const int size = static_cast<int>(past.days.size());
    for (int n = std::max(0, size - days); n < size; ++n) {
      const PastDay& day = past.days[static_cast<std::size_t>(n)];
      if (!day.is_counted) continue;
      const auto weekday = static_cast<std::size_t>(iso_weekday(past.first_on + n) - 1);
      by_weekday[weekday] += day.used;
      known[weekday] += 1;
      sum += day.used;
      count += 1;
    }
  }
};

std::array<double, 7> use_by_weekday(PlainForecast forecast, const PastUse& past) {
  RecentUse recent(past, forecast == PlainForecast::mean_365_days  ? 365
                         : forecast == PlainForecast::mean_30_days ? 30
                                                                   : 7);
  if (recent.count == 0) recent = RecentUse(past, history_days_max);
  std::array<double, 7> use{};
  use.fill(recent.count > 0 ? recent.sum / recent.count : 0);
  if (forecast != PlainForecast::last_week) return use;
  for (std::size_t day = 0; day < 7; ++day) {
    if (recent.known[day] > 0) use[day] = recent.by_weekday[day] / recent.known[day];
  }
  return use;
}

}  // namespace

std::string_view word_of(PlainForecast forecast) {
  switch (forecast) {
    case PlainForecast::mean_30_days:
      return "mean of 30 days";
    case PlainForecast::last_week:
      return "last week again";
    case PlainForecast::mean_365_days:
      return "mean of 365 days";
  }
  HW_ASSERT(false, "a forecast of the list");
  return {};
}

std::optional<LocalDate> pattern_due_day(const std::array<double, 7>& use, LocalDate start,
                                         const std::vector<LocalDate>& closed, double left) {
  HW_ASSERT(std::isfinite(left), "a finite amount left");
  if (left <= 0) return start;
  const std::vector<double> sums = sum_shares(start, closed, use, {});
  const auto reached = std::lower_bound(sums.begin(), sums.end(), left - 1e-9 * std::abs(left));
  if (reached == sums.end()) return std::nullopt;
  return start + static_cast<int>(reached - sums.begin());
}

std::optional<LocalDate> plain_due_day(PlainForecast forecast, const PastUse& past, const UseHistory& history,
                                       double left) {
  return pattern_due_day(use_by_weekday(forecast, past), history.start, history.closed, left);
}

}  // namespace hw::due
