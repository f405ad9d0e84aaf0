#pragma once
// The level of use and how it wanders: one hypothesis about it, learned from blocks of past days.
//
// Use is measured in shares: a day takes share x_d (weekday, closed days), a block of days takes x = sum of x_d and
// used y. The rate of a block is
//   y / x = m + u(t) + a cos(2 pi t / year) + b sin(2 pi t / year) + noise,   noise ~ N(0, v max(level, 0.4)^2 / x)
//   u(t)  an Ornstein-Uhlenbeck process: variance s^2 v, forgets in `memory_days`, s^2 = 4 unrest / memory
// with m the long mean, u the present deviation. v, the noise of one day, is not known: it has an inverse gamma
// prior and is integrated out, which leaves Student distributions (West and Harrison, Bayesian forecasting and dynamic
// models; the filter is Kalman's). Rates are in units of the history's mean, so that nothing here has a unit.

#include <array>
#include <numbers>
#include <vector>

#include "src/due/daily_use.h"
#include "src/due/future_days.h"

namespace hw::due {

struct Hypothesis {
  double memory_days = 100;  // above 0
  double unrest = 0;         // 0: the level does not wander
  bool has_season = false;
  double drift = 0;  // variance that the long mean gains in a day, in units of v
};

// Some days of the past together.
struct UseBlock {
  double middle = 0;                  // days since the first day of the history
  double shares = 0;                  // above 0
  double used = 0;                    // in units of the mean use of one share
  double year_cos = 0, year_sin = 0;  // of the middle's angle in the year
};

// What one hypothesis knows at the start of the future.
struct LevelBelief {
  Hypothesis hypothesis;
  std::array<double, 4> mean{};                   // u, m, a, b
  std::array<std::array<double, 4>, 4> spread{};  // their covariance
  double noise = 0;                               // v: variance of one share's rate at level 1
  double degrees = 0;                             // of freedom of its Student distribution
  double log_evidence = 0;                        // of the history, up to a constant that all hypotheses share
};

// What the long mean is thought to be before the history is seen, in its units.
struct MeanPrior {
  double mean = 1;
  double variance = 1;
};

// `year_phase` is the angle of the history's first day in the year, `days` the length of the history.
struct BlockRun {
  std::vector<UseBlock> blocks;  // in order of time
  double days = 0;
  double year_phase = 0;
};

// Angle of the year per day.
inline constexpr double radians_per_day = 2 * std::numbers::pi / 365.25;

LevelBelief learn_level(const Hypothesis& hypothesis, const BlockRun& run, const MeanPrior& prior);

// The mean rate from the start over the next `days` (above 0): its mean, the variance of the level, and the noise
// that each share adds: over x shares (above 0) the variance is level_variance + noise / x.
struct RateAhead {
  double mean = 0;
  double level_variance = 0;
  double noise = 0;
};
RateAhead rate_ahead(const LevelBelief& belief, const BlockRun& run, double days);

}  // namespace hw::due
