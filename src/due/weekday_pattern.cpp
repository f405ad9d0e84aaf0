#include "src/due/weekday_pattern.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "libs/values/assert.h"

namespace hw::due {
namespace {

constexpr double half_weight_days = 180;
constexpr double weekend_guess = 0.3;       // of a working day
constexpr double weekend_guess_days = 0.5;  // as strong as half a day
constexpr double weekend_spread = 0.15;     // variance of a weekend day's share, in squares of a working day
constexpr double weekday_spread_min = 0.003;
constexpr double usual_min = 0.2;  // of the mean: where the use is on weekends only
constexpr double lent_days = 2;    // what is lent counts as so many days of each weekday

struct WeekdaySums {
  WeekdayShares n{}, sum{}, squares{};  // weighted by age
  WeekdayShares days{};

  void add(std::size_t weekday, double used, double weight) {
    n[weekday] += weight;
    sum[weekday] += weight * used;
    squares[weekday] += weight * used * used;
    days[weekday] += 1;
  }
  double mean(std::size_t weekday) const { return sum[weekday] / n[weekday]; }
  // The sum of squares about the weekday's own mean.
  double scatter(std::size_t weekday) const {
    return n[weekday] > 0 ? std::max(0.0, squares[weekday] - n[weekday] * mean(weekday) * mean(weekday)) : 0;
  }
  double mean_between(std::size_t begin, std::size_t end, double guess, double guess_days) const {
    double days_sum = guess_days, used = guess * guess_days;
    for (std::size_t day = begin; day < end; ++day) days_sum += n[day], used += sum[day];
    return used / days_sum;
  }
};

// Use in units of its own mean, so that nothing below depends on the unit.
// Days that are known together say nothing of weekdays; they count only where there are no others with use.
WeekdaySums sum_by_weekday(const PastUse& past, double unit) {
  const bool has_own_days = std::any_of(past.days.begin(), past.days.end(), [](const PastDay& day) {
    return day.is_counted && !day.is_shared && day.used > 0;
  });
  WeekdaySums sums;
  auto weekday = static_cast<std::size_t>(iso_weekday(past.first_on) - 1);
  for (std::size_t n = 0; n < past.days.size(); ++n, weekday = (weekday + 1) % 7) {
    if (!past.days[n].is_counted || (has_own_days && past.days[n].is_shared)) continue;
    const double age_days = static_cast<double>(past.days.size() - 1 - n);
    sums.add(weekday, past.days[n].used / unit, std::exp2(-age_days / half_weight_days));
  }
  return sums;
}

double mean_use(const PastUse& past) {
  double used = 0, days = 0;
  for (const PastDay& day : past.days) {
    if (day.is_counted) used += day.used, days += 1;
  }
  return days > 0 ? used / days : 0;
}

double scatter_of_a_day(const WeekdaySums& sums, double usual) {
  double scatter = 0.2 * usual * usual, degrees = 1;
  for (std::size_t day = 0; day < 7; ++day) {
    scatter += sums.scatter(day);
    degrees += std::max(0.0, sums.n[day] - 1);
  }
  return scatter / degrees;
}

// How much Monday to Friday differ among each other beyond what their scatter explains.
double spread_of_weekdays(const WeekdaySums& sums, double usual, double scatter) {
  double spread = 0;
  int seen = 0;
  for (std::size_t day = 0; day < 5; ++day) {
    if (sums.n[day] <= 0) continue;
    const double off = sums.mean(day) - usual;
    spread += off * off - scatter / sums.n[day];
    ++seen;
  }
  const double beyond = seen > 1 ? std::max(0.0, spread) / (seen - 0.5) : 0;
  return beyond + weekday_spread_min * usual * usual;
}

double shrunk(const WeekdaySums& sums, std::size_t day, double target, double scatter, double spread) {
  if (sums.n[day] <= 0) return target;
  const double own = (sums.scatter(day) + scatter) / sums.n[day];
  const double doubt = std::min(own, scatter) / sums.n[day];
  const double kept = doubt / (doubt + spread);
  return kept * target + (1 - kept) * sums.mean(day);
}

void lend(WeekdaySums& sums, const WeekdayShares& shares) {
  for (std::size_t day = 0; day < 7; ++day) {
    sums.n[day] += lent_days;
    sums.sum[day] += lent_days * shares[day];
    sums.squares[day] += lent_days * shares[day] * shares[day];
  }
}

}  // namespace

WeekdayPattern learn_weekdays(const PastUse& past, const LentUse* lent) {
  const double own = mean_use(past);
  const double unit = own > 0 || lent == nullptr ? own : lent->per_day;
  HW_ASSERT(unit > 0, "some use, of its own or lent");
  WeekdaySums sums = sum_by_weekday(past, unit);
  WeekdayPattern pattern{{}, sums.days};
  if (lent != nullptr) lend(sums, lent->shares);
  const double target = sums.mean_between(0, 5, 0, 1e-12);
  const double usual = std::max(target, usual_min);
  const double weekend = sums.mean_between(5, 7, weekend_guess * usual, weekend_guess_days);
  const double scatter = scatter_of_a_day(sums, usual);
  const double spread = spread_of_weekdays(sums, usual, scatter);
  for (std::size_t day = 0; day < 7; ++day) {
    pattern.shares[day] = day < 5 ? shrunk(sums, day, target, scatter, spread)
                                  : shrunk(sums, day, weekend, scatter, weekend_spread * usual * usual);
  }
  const double mean = std::accumulate(pattern.shares.begin(), pattern.shares.end(), 0.0) / 7;
  for (double& share : pattern.shares) share /= mean;
  return pattern;
}

}  // namespace hw::due
