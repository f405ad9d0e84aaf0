#include "src/due/backtest.h"

#include <algorithm>
#include <optional>

#include "libs/values/assert.h"
#include "src/due/use_forecast.h"

namespace hw::due {
namespace {

constexpr std::size_t methods = 2 + plain_forecasts.size();

using Scores = std::array<Score, methods>;

Scores empty_scores() {
  Scores scores;
  scores[0].method = "forecast";
  scores[1].method = "weekday bootstrap";
  for (std::size_t n = 0; n < plain_forecasts.size(); ++n) scores[2 + n].method = word_of(plain_forecasts[n]);
  return scores;
}

// The history with its unknown days closed.
UseHistory without_unknown(const UseHistory& history, const PastUse& past) {
  UseHistory known = history;
  for (std::size_t n = 0; n < past.days.size(); ++n) {
    if (!past.days[n].is_counted) known.closed.push_back(past.first_on + static_cast<int>(n));
  }
  return known;
}

UseHistory known_before(const UseHistory& history, LocalDate origin) {
  UseHistory before{origin, {}, history.closed, history.unit};
  for (const UseDay& day : history.days) {
    if (day.on < origin) before.days.push_back(day);
  }
  return before;
}

// Sums of use by day, to find an outcome in.
class Outcomes {
 public:
  explicit Outcomes(const PastUse& past) : first_on_(past.first_on), sums_(past.days.size() + 1, 0.0) {
    for (std::size_t n = 0; n < past.days.size(); ++n) sums_[n + 1] = sums_[n] + past.days[n].used;
  }
  std::optional<LocalDate> day_of(LocalDate origin, double left) const {
    const auto begin = sums_.begin() + (origin - first_on_);
    const auto reached = std::lower_bound(begin + 1, sums_.end(), *begin + left);
    if (reached == sums_.end()) return std::nullopt;
    return first_on_ + static_cast<int>(reached - sums_.begin() - 1);
  }

 private:
  LocalDate first_on_;
  std::vector<double> sums_;
};

int days_ahead(const std::optional<LocalDate>& day, LocalDate origin) { return day ? *day - origin : horizon_days; }

void add(Score& score, const DueQuantiles& days, LocalDate origin, LocalDate outcome) {
  const int out = outcome - origin;
  score.count += 1;
  double loss = 0;
  for (std::size_t n = 0; n < days.size(); ++n) {
    const int day = days_ahead(days[n], origin);
    score.before[n] += out < day ? 1 : 0;
    score.up_to[n] += out <= day ? 1 : 0;
    loss += out >= day ? shown_chances[n] * (out - day) : (1 - shown_chances[n]) * (day - out);
  }
  const int first = days_ahead(days[1], origin), last = days_ahead(days[5], origin);
  score.inside += first <= out && out <= last ? 1 : 0;
  score.width_days += last - first;
  score.pinball_days += loss / static_cast<double>(days.size());
}

// Everything that is said at one origin about one horizon.
std::array<DueQuantiles, methods> all_methods(const UseForecast& forecast, const PastUse& past,
                                              const UseHistory& before, double left) {
  std::array<DueQuantiles, methods> days;
  days[0] = forecast.due_days(left);
  days[1] = quantiles(weekday_bootstrap(past, before, left));
  for (std::size_t n = 0; n < plain_forecasts.size(); ++n) {
    days[2 + n].fill(plain_due_day(plain_forecasts[n], past, before, left));
  }
  return days;
}

HorizonScores means(int horizon, const Scores& sums) {
  HorizonScores scores{horizon, {sums.begin(), sums.end()}};
  for (Score& score : scores.scores) {
    score.width_days /= score.count;
    score.pinball_days /= score.count;
  }
  return scores;
}

class Run {
 public:
  Run(const UseHistory& history, const PastUse& past, const BacktestOptions& options)
      : history_(without_unknown(history, past)), outcomes_(past), options_(options) {
    sums_.assign(options.horizons_days.size() + 1, empty_scores());
  }

  void forecast_on(LocalDate origin) {
    const UseHistory before = known_before(history_, origin);
    const auto past = arrange(before);
    if (!past || past->known_days < options_.warm_up_days) return;
    const auto forecast = UseForecast::prepare(before);
    if (!forecast || forecast->never_used()) return;
    for (std::size_t n = 0; n < options_.horizons_days.size(); ++n) {
      const int horizon = options_.horizons_days[n];
      const double left = horizon * forecast->working().mean_per_day;
      const auto outcome = outcomes_.day_of(origin, left);
      if (!outcome) continue;
      const auto days = all_methods(*forecast, *past, before, left);
      for (std::size_t method = 0; method < methods; ++method) {
        add(sums_[n][method], days[method], origin, *outcome);
        add(sums_.back()[method], days[method], origin, *outcome);
      }
      found_.forecasts.push_back({origin, horizon, days[0], *outcome});
    }
  }

  Backtest finish() && {
    for (std::size_t n = 0; n < sums_.size(); ++n) {
      const int horizon = n < options_.horizons_days.size() ? options_.horizons_days[n] : 0;
      if (sums_[n][0].count > 0) found_.horizons.push_back(means(horizon, sums_[n]));
    }
    return std::move(found_);
  }

 private:
  UseHistory history_;
  Outcomes outcomes_;
  BacktestOptions options_;
  std::vector<Scores> sums_;  // per horizon, then all
  Backtest found_;
};

}  // namespace

Result<Backtest> backtest(const UseHistory& history, const BacktestOptions& options) {
  HW_ASSERT(options.step_days >= 1 && options.warm_up_days >= history_days_min, "days as the options say");
  HW_TAKE(past, arrange(history));
  Run run(history, past, options);
  for (LocalDate origin = past.first_on + 1; origin < history.start; origin = origin + options.step_days) {
    run.forecast_on(origin);
  }
  return std::move(run).finish();
}

}  // namespace hw::due
