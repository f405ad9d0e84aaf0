#include "src/due/level_mixture.h"

#include <gtest/gtest.h>

#include "src/due/life_test.h"

namespace hw::due {
namespace {

constexpr WeekdayShares every_day = {1, 1, 1, 1, 1, 1, 1};

TEST(LevelMixture, WeightsSumToOneAndTheHeaviestIsFirst) {
  const BlockRun run = blocks_of(*arrange(history_of(times(20, "7878878"))), every_day, 7.5);
  const auto levels = weigh_levels(run, {});
  double sum = 0;
  for (std::size_t n = 0; n < levels.size(); ++n) {
    sum += levels[n].weight;
    if (n > 0) {
      EXPECT_LE(levels[n].weight, levels[n - 1].weight);
    }
  }
  EXPECT_NEAR(sum, 1, 1e-9);
}

TEST(LevelMixture, MergingKeepsWeightAndMean) {
  const BlockRun run = blocks_of(*arrange(history_of(times(6, "7878878") + times(6, "3434434"))), every_day, 5.5);
  const auto levels = weigh_levels(run, {});
  const auto mean_of = [](const std::vector<WeightedAhead>& rates) {
    double weight = 0, mean = 0;
    for (const auto& one : rates) weight += one.weight, mean += one.weight * one.rate.mean;
    EXPECT_NEAR(weight, 1, 1e-9);
    return mean;
  };
  ASSERT_GT(levels.size(), 3U);
  EXPECT_NEAR(mean_of(rates_ahead(levels, run, 28, 100)), mean_of(rates_ahead(levels, run, 28, 2)), 1e-9);
}

TEST(LevelMixture, BlocksKeepAllUseAndLeaveUnknownDaysOut) {
  const PastUse past = *arrange(history_of(times(11, "888.800")));
  const BlockRun run = blocks_of(past, every_day, 8);
  double used = 0, shares = 0;
  for (const UseBlock& block : run.blocks) used += block.used, shares += block.shares;
  EXPECT_NEAR(used, 44, 1e-9);
  EXPECT_NEAR(shares, 66, 1e-9);
  EXPECT_EQ(run.blocks.size(), 11U);
}

TEST(LevelMixture, AChangeThatNothingForetoldIsLikelierFartherAheadAndAfterAShorterHistory) {
  const auto change_chance = [](int weeks, double days) {
    const BlockRun run = blocks_of(*arrange(history_of(times(weeks, "7878878"))), every_day, 7.5);
    return rates_ahead(weigh_levels(run, {}), run, days, 3).back().weight;
  };
  EXPECT_LT(change_chance(20, 10), change_chance(20, 100));
  EXPECT_LT(change_chance(100, 100), change_chance(20, 100));
  EXPECT_LT(change_chance(2, 1), 0.01);
  EXPECT_GT(change_chance(2, 3000), 0.9);
}

TEST(LevelMixture, ALevelLongUnseenMayHaveChangedSince) {
  const PastUse seen = *arrange(history_of(times(20, "7878878")));
  const PastUse unseen = *arrange(history_of(times(20, "7878878") + times(30, ".......")));
  const auto change_chance = [](const PastUse& past) {
    const BlockRun run = blocks_of(past, every_day, 7.5);
    return rates_ahead(weigh_levels(run, {}), run, 30, 3).back().weight;
  };
  EXPECT_GT(change_chance(unseen), 2 * change_chance(seen));
}

TEST(LevelMixture, DaysThatAreKnownTogetherAreNeverCut) {
  UseHistory history = history_of(times(6, "7878878"));
  history.days.push_back({monday - 42 - 1, 100, 30});
  const BlockRun run = blocks_of(*arrange(history), every_day, 7.5);
  ASSERT_EQ(run.blocks.size(), 7U);
  EXPECT_NEAR(run.blocks.front().shares, 30, 1e-9);
  EXPECT_NEAR(run.blocks.front().used, 100 / 7.5, 1e-9);
}

}  // namespace
}  // namespace hw::due
