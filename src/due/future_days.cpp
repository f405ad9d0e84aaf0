#include "src/due/future_days.h"

#include <numeric>

#include "libs/values/assert.h"

namespace hw::due {
namespace {

WeekdayShares changed_shares(const WeekdayShares& shares, const ShiftChange& change) {
  HW_ASSERT(change.factor >= 0 && change.factor <= 100, "a factor from 0 to 100");
  WeekdayShares changed = shares;
  if (change.weekdays) {
    const double usual = std::accumulate(shares.begin(), shares.begin() + 5, 0.0) / 5;
    for (std::size_t day = 0; day < 7; ++day) changed[day] = (*change.weekdays)[day] * usual;
  }
  for (double& share : changed) share *= change.factor;
  return changed;
}

}  // namespace

std::vector<double> sum_shares(LocalDate start, const std::vector<LocalDate>& closed, const WeekdayShares& shares,
                               const std::optional<ShiftChange>& change) {
  std::vector<char> is_closed(horizon_days, 0);
  for (const LocalDate day : closed) {
    const int ahead = day - start;
    if (ahead >= 0 && ahead < horizon_days) is_closed[static_cast<std::size_t>(ahead)] = 1;
  }
  const WeekdayShares later = change ? changed_shares(shares, *change) : shares;
  const int change_in = change ? change->from - start : horizon_days;
  std::vector<double> sums(horizon_days);
  double sum = 0;
  int weekday = iso_weekday(start) - 1;
  for (int day = 0; day < horizon_days; ++day) {
    const auto n = static_cast<std::size_t>(day);
    if (is_closed[n] == 0) sum += (day < change_in ? shares : later)[static_cast<std::size_t>(weekday)];
    sums[n] = sum;
    weekday = weekday == 6 ? 0 : weekday + 1;
  }
  return sums;
}

}  // namespace hw::due
