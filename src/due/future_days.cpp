#include "src/due/future_days.h"

#include <numeric>
#include <set>

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

// Days on which the same changes hold: up to `ends_in` days from the start.
struct Stretch {
  int ends_in = 0;
  WeekdayShares shares{};
};

bool holds_on(const ShiftChange& change, LocalDate day) {
  return change.from <= day && day <= change.until.value_or(day);
}

WeekdayShares shares_on(LocalDate day, WeekdayShares shares, const std::vector<ShiftChange>& changes) {
  for (const ShiftChange& change : changes) {
    if (holds_on(change, day)) shares = changed_shares(shares, change);
  }
  return shares;
}

std::vector<Stretch> stretches_of(LocalDate start, const WeekdayShares& shares,
                                  const std::vector<ShiftChange>& changes) {
  std::set<int> ends{horizon_days};
  for (const ShiftChange& change : changes) {
    ends.insert(change.from - start);
    if (change.until) ends.insert(*change.until - start + 1);
  }
  std::vector<Stretch> stretches;
  int begins_in = 0;
  for (const int end : ends) {
    if (end <= 0 || end > horizon_days) continue;
    stretches.push_back({end, shares_on(start + begins_in, shares, changes)});
    begins_in = end;
  }
  return stretches;
}

}  // namespace

std::vector<double> sum_shares(LocalDate start, const std::vector<LocalDate>& closed, const WeekdayShares& shares,
                               const std::vector<ShiftChange>& changes) {
  std::vector<char> is_closed(horizon_days, 0);
  for (const LocalDate day : closed) {
    const int ahead = day - start;
    if (ahead >= 0 && ahead < horizon_days) is_closed[static_cast<std::size_t>(ahead)] = 1;
  }
  const std::vector<Stretch> stretches = stretches_of(start, shares, changes);
  auto stretch = stretches.begin();
  std::vector<double> sums(horizon_days);
  double sum = 0;
  int weekday = iso_weekday(start) - 1;
  for (int day = 0; day < horizon_days; ++day) {
    const auto n = static_cast<std::size_t>(day);
    while (day >= stretch->ends_in) ++stretch;
    if (is_closed[n] == 0) sum += stretch->shares[static_cast<std::size_t>(weekday)];
    sums[n] = sum;
    weekday = weekday == 6 ? 0 : weekday + 1;
  }
  return sums;
}

}  // namespace hw::due
