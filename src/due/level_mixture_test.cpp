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

}  // namespace
}  // namespace hw::due
