// Forecasts on what a real lathe did in three years (tests/recordings/README.md): from 2 h a day it came down to half
// an hour, and it stood for weeks. One life proves no calibration, but the forecast has to beat what anybody could do
// with a spreadsheet, and its range has to be worth something.

#include <algorithm>

#include <gtest/gtest.h>

#include "src/due/backtest.h"
#include "src/terminal/history_file.h"
#include "tests/places/places.h"

namespace hw::tests {
namespace {

due::Backtest made_backtest() {
  const auto histories =
      terminal::read_history_file(in_source("tests/recordings/use_lathe-l_readings.csv"), Zone::utc());
  EXPECT_TRUE(histories) << histories.error().message;
  const auto tested = due::backtest(histories->front().history, {{3, 10, 30, 90, 180}, 28, 28});
  EXPECT_TRUE(tested);
  return *tested;
}

const due::Backtest& backtest_of_lathe() {
  static const due::Backtest tested = made_backtest();
  return tested;
}

TEST(RealHistory, TheForecastBeatsEveryPlainOneAtEachHorizon) {
  const due::Backtest& tested = backtest_of_lathe();
  ASSERT_EQ(tested.horizons.size(), 6U);
  for (const due::HorizonScores& horizon : tested.horizons) {
    double best = 1e9;
    for (std::size_t n = 1; n < horizon.scores.size(); ++n) best = std::min(best, horizon.scores[n].pinball_days);
    EXPECT_LT(horizon.scores[0].pinball_days, best) << horizon.horizon_days;
  }
  const auto& all = tested.horizons.back().scores;
  for (std::size_t n = 2; n < all.size(); ++n) EXPECT_LE(all[0].pinball_days, 0.85 * all[n].pinball_days);
}

TEST(RealHistory, TheRangeHoldsMostOfWhatCame) {
  const due::Backtest& tested = backtest_of_lathe();
  for (const due::HorizonScores& horizon : tested.horizons) {
    const due::Score& score = horizon.scores[0];
    EXPECT_GE(score.inside, 0.65 * score.count) << horizon.horizon_days;
    EXPECT_LE(score.inside, 0.98 * score.count) << horizon.horizon_days;
  }
}

}  // namespace
}  // namespace hw::tests
