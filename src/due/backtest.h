#pragma once
// How good the forecasts would have been: made at past days from what was known then, held against what happened.
//
// In: a history. For each origin day and each of some horizons H the amount left is H times the mean use per day known
// until then, so that a task of about H days is asked for. The outcome is the day by whose end that much had been used;
// where the history ends before, there is none and the forecast does not count. A day without a record is taken out of
// the calendar for forecast and outcome alike, as if the shop had been closed: what was used on it nobody knows.
//
// Out: per horizon and over all, per method: how often the outcome lay before each quantile's day, and up to it; how
// often inside the 80 % range (from the day of the 10 % to that of the 90 % quantile); how wide that is; the pinball
// loss, the mean over the seven shown chances p of
//   (outcome - day) p where the outcome is later, (day - outcome) (1 - p) where it is earlier, in days.
// A day that is never reached counts as ten years on.

#include <string>
#include <vector>

#include "src/due/plain_forecasts.h"

namespace hw::due {

struct BacktestOptions {
  std::vector<int> horizons_days = {3, 10, 30, 90, 180};  // each above 0
  int step_days = 1;                                      // from origin to origin, at least 1
  int warm_up_days = 14;  // known days before the first origin, at least history_days_min
};

struct Score {
  std::string method;  // "forecast", "weekday bootstrap", or the word of a plain forecast
  int count = 0;
  std::array<int, shown_chances.size()> before{};  // outcomes strictly before the quantile's day
  std::array<int, shown_chances.size()> up_to{};   // and up to it
  int inside = 0;                                  // the 80 % range
  double width_days = 0;                           // of the 80 % range, on the mean; 0 for a point
  double pinball_days = 0;
};

struct HorizonScores {
  int horizon_days = 0;  // 0: all together
  std::vector<Score> scores;
};

// One forecast and its outcome.
struct PastForecast {
  LocalDate made_on;
  int horizon_days = 0;
  DueQuantiles days;
  LocalDate outcome;
};

struct Backtest {
  std::vector<HorizonScores> horizons;  // as asked for, then all together; those without an outcome are left out
  std::vector<PastForecast> forecasts;  // of the forecast proper, in order of day, then horizon
};

// Errors: those of arrange().
Result<Backtest> backtest(const UseHistory& history, const BacktestOptions& options = {});

}  // namespace hw::due
