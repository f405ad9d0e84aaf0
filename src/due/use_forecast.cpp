#include "src/due/use_forecast.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "libs/values/assert.h"
#include "src/due/level_mixture.h"
#include "src/due/standing.h"

namespace hw::due {
namespace {

constexpr double shares_ahead_min = 0.2;  // of a day: the days ahead may all be closed

struct Sums {
  double used = 0, shares = 0;
};

Sums sum_past(const PastUse& past, const WeekdayShares& shares) {
  Sums sums;
  auto weekday = static_cast<std::size_t>(iso_weekday(past.first_on) - 1);
  for (const PastDay& day : past.days) {
    if (day.is_counted) sums.used += day.used, sums.shares += shares[weekday];
    weekday = (weekday + 1) % 7;
  }
  return sums;
}

const std::vector<int>& knots() {
  static const std::vector<int> days = [] {
    std::vector<int> made;
    for (double day = 1; day < horizon_days; day = std::max(day + 1, std::floor(day * 1.25))) {
      made.push_back(static_cast<int>(day));
    }
    made.push_back(horizon_days);
    return made;
  }();
  return days;
}

// What is believed at the start of the future.
struct Levels {
  double unit = 1;  // the mean use of one share
  BlockRun run;
  std::vector<WeightedBelief> beliefs;
  StandingBelief standing;
};

struct Ahead {
  double days = 0;
  double shares = 0;
};

Ahead ahead_by(const std::vector<double>& shares, int days) {
  return {static_cast<double>(days), std::max(shares_ahead_min, shares[static_cast<std::size_t>(days - 1)])};
}

// The machine is active for a part of the days ahead only: each part is a mixture of its own.
std::vector<WeightedRate> with_standing(const Levels& levels, const Ahead& ahead) {
  const std::vector<ActivePart> parts = active_parts(levels.standing, ahead.shares);
  const auto rates = rates_ahead(levels.beliefs, levels.run, ahead.days, parts.size() > 2 ? 3 : 6);
  std::vector<WeightedRate> all;
  all.reserve(parts.size() * rates.size());
  for (const ActivePart& part : parts) {
    const double fraction = std::max(part.fraction, 1e-3);
    const double shares = std::max(ahead.shares * fraction, shares_ahead_min);
    for (const auto& [weight, rate, degrees] : rates) {
      const double variance = rate.level_variance + rate.noise / shares;
      all.push_back({weight * part.chance, rate.mean * fraction, variance * fraction * fraction, degrees});
    }
  }
  return all;
}

UseCurve curve_of(const Levels& levels, std::vector<double> shares) {
  std::vector<UseByChance> used;
  used.reserve(knots().size());
  for (const int days : knots()) {
    UseByChance row = rates_exceeded(with_standing(levels, ahead_by(shares, days)));
    for (double& entry : row) entry *= levels.unit * shares[static_cast<std::size_t>(days - 1)];
    used.push_back(row);
  }
  return UseCurve(std::move(shares), knots(), used);
}

LevelAhead level_ahead(const Levels& levels, const Ahead& ahead) {
  double mean = 0, squares = 0;
  for (const WeightedRate& rate : with_standing(levels, ahead)) {
    mean += rate.weight * rate.mean;
    squares += rate.weight * (rate.variance + rate.mean * rate.mean);
  }
  const double per_day = levels.unit * ahead.shares / ahead.days;
  return {static_cast<int>(ahead.days), per_day * mean, per_day * std::sqrt(std::max(0.0, squares - mean * mean))};
}

int idle_days_of(const PastUse& past, const WeekdayShares& shares) {
  int idle = 0;
  const int first_weekday = iso_weekday(past.first_on) - 1;
  for (std::size_t n = past.days.size(); n-- > 0;) {
    if (!past.days[n].is_counted) continue;
    if (past.days[n].used > 0) break;
    if (shares[(static_cast<std::size_t>(first_weekday) + n) % 7] > 0.25) ++idle;
  }
  return idle;
}

LocalDate last_known_day(const PastUse& past) {
  std::size_t n = past.days.size();
  while (n > 1 && !past.days[n - 1].is_counted) --n;
  return past.first_on + static_cast<int>(n - 1);
}

void describe_levels(UseWorking& working, const Levels& levels) {
  double log_memory = 0, wandering = 0;
  for (const WeightedBelief& level : levels.beliefs) {
    const Hypothesis& h = level.belief.hypothesis;
    working.long_mean_per_day += level.weight * levels.unit * level.belief.mean[1];
    if (h.has_season) working.season_weight += level.weight;
    if (h.unrest > 0) log_memory += level.weight * std::log(h.memory_days), wandering += level.weight;
  }
  working.memory_days = wandering > 0.5 ? std::exp(log_memory / wandering) : 0;
}

}  // namespace

Result<UseForecast> UseForecast::prepare(const UseHistory& history, const ForecastOptions& options) {
  HW_TAKE(past, arrange(history));
  const LentUse* lent = options.lent ? &*options.lent : nullptr;
  UseForecast forecast;
  forecast.start_ = history.start;
  UseWorking& working = forecast.working_;
  working = {past.first_on, last_known_day(past), past.known_days, past.unknown_days};
  for (const PastDay& day : past.days) working.used += day.used;
  working.mean_per_day = working.used / past.known_days;
  working.is_lent = lent != nullptr;
  if (working.used <= 0 && lent == nullptr) return forecast;

  const WeekdayShares first_look = learn_weekdays(past, lent).shares;
  working.idle_days = idle_days_of(past, first_look);
  const StandingPast standing = find_spells(past, first_look);
  past = without_spells(std::move(past), standing.stands);
  working.weekdays = learn_weekdays(past, lent);
  const WeekdayShares& weekdays = working.weekdays.shares;
  const Sums sums = sum_past(past, weekdays);
  const double unit = lent != nullptr ? lent->per_day : sums.used / std::max(sums.shares, 1e-3);
  const MeanPrior prior = lent != nullptr ? MeanPrior{1, std::pow(lent->spread / unit, 2)} : MeanPrior{};
  Levels levels{unit, blocks_of(past, weekdays, unit), {}, standing.belief};
  levels.beliefs = weigh_levels(levels.run, prior);
  std::vector<double> shares = sum_shares(history.start, history.closed, weekdays, options.changes);
  describe_levels(working, levels);
  for (const int days : {7, 28, 91, 364}) working.ahead.push_back(level_ahead(levels, ahead_by(shares, days)));
  forecast.curve_ = curve_of(levels, std::move(shares));
  return forecast;
}

DueQuantiles UseForecast::due_days(double left) const {
  HW_ASSERT(std::isfinite(left), "a finite amount left");
  DueQuantiles days;
  if (left <= 0) {
    days.fill(start_);
    return days;
  }
  if (!curve_) return days;
  std::size_t shown = 0;
  for (std::size_t n = 0; n < chances.size() && shown < days.size(); ++n) {
    if (chances[n] != shown_chances[shown]) continue;
    if (const auto day = curve_->day_of(n, left)) days[shown] = start_ + *day;
    ++shown;
  }
  return days;
}

DueDistribution UseForecast::distribution(double left) const {
  HW_ASSERT(std::isfinite(left), "a finite amount left");
  if (left <= 0) return on_calendar(start_);
  DueDistribution due;
  if (!curve_) return due;
  for (std::size_t n = 0; n < chances.size(); ++n) {
    const auto day = curve_->day_of(n, left);
    if (!day) break;
    if (!due.empty() && due.back().on == start_ + *day) due.pop_back();
    due.push_back({start_ + *day, chances[n]});
  }
  return due;
}

double UseForecast::chance_by(LocalDate day, double left) const {
  HW_ASSERT(std::isfinite(left) && day >= start_ && day - start_ < horizon_days, "a finite amount, within ten years");
  if (left <= 0) return 1;
  return curve_ ? curve_->chance_by(day - start_, left) : 0;
}

}  // namespace hw::due
