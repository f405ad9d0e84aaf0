#include "src/due/backtest.h"

#include <gtest/gtest.h>

#include "src/due/life_test.h"

namespace hw::due {
namespace {

TEST(Backtest, OnARegularMachineEveryOutcomeIsNearTheMedian) {
  const auto tested = backtest(history_of(times(30, "8888800")), {{7, 28}, 3, 28});
  ASSERT_TRUE(tested);
  ASSERT_EQ(tested->horizons.size(), 3U);
  EXPECT_EQ(tested->horizons[0].horizon_days, 7);
  EXPECT_EQ(tested->horizons[2].horizon_days, 0);
  const Score& week = tested->horizons[0].scores[0];
  EXPECT_GT(week.inside, 0.9 * week.count);
  EXPECT_LT(week.pinball_days, 1);
}

TEST(Backtest, CountsAddUp) {
  const auto tested = backtest(history_of(times(20, "8.88800")), {{3, 10, 30}, 2, 20});
  ASSERT_TRUE(tested);
  const auto& all = tested->horizons.back().scores;
  int count = 0;
  for (std::size_t n = 0; n + 1 < tested->horizons.size(); ++n) count += tested->horizons[n].scores[0].count;
  EXPECT_EQ(all[0].count, count);
  EXPECT_EQ(tested->forecasts.size(), static_cast<std::size_t>(count));
  for (const Score& score : all) {
    EXPECT_EQ(score.count, count);
    for (std::size_t n = 0; n < score.before.size(); ++n) EXPECT_LE(score.before[n], score.up_to[n]);
  }
}

TEST(Backtest, AForecastKnowsNothingOfWhatCameAfter) {
  const std::string before = times(10, "8888800");
  const auto one = backtest(history_of(before + times(20, "8888800")), {{7}, 1, 28});
  const auto two = backtest(history_of(before + times(20, "2222200")), {{7}, 1, 28});
  ASSERT_TRUE(one && two);
  EXPECT_EQ(one->forecasts.front().made_on, two->forecasts.front().made_on);
  EXPECT_EQ(one->forecasts.front().days, two->forecasts.front().days);
}

TEST(Backtest, AHistoryWithoutAnOutcomeHasNoForecasts) {
  EXPECT_TRUE(backtest(history_of("8888888"))->forecasts.empty());
  EXPECT_FALSE(backtest(history_of("8")));
}

}  // namespace
}  // namespace hw::due
