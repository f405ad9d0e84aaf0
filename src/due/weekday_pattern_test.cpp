#include "src/due/weekday_pattern.h"

#include <numeric>

#include <gtest/gtest.h>

#include "src/due/life_test.h"

namespace hw::due {
namespace {

WeekdayPattern pattern_of(std::string_view picture, const LentUse* lent = nullptr) {
  return learn_weekdays(*arrange(history_of(picture)), lent);
}

TEST(WeekdayPattern, WeekendsWithoutUseHaveNoShare) {
  const auto shares = pattern_of(times(8, "7878800")).shares;
  EXPECT_LT(shares[5], 0.02);
  EXPECT_NEAR(shares[0], 1.4 * 7 / 7.6, 0.02);
  EXPECT_NEAR(std::accumulate(shares.begin(), shares.end(), 0.0), 7, 1e-9);
}

TEST(WeekdayPattern, AShortFridayIsSeen) {
  const auto shares = pattern_of(times(8, "8888400")).shares;
  EXPECT_NEAR(shares[4] / shares[0], 0.5, 0.03);
}

TEST(WeekdayPattern, AnUnknownWeekendIsAGuess) {
  const auto shares = pattern_of("88888..").shares;
  EXPECT_NEAR(shares[5] / shares[0], 0.3, 0.01);
}

TEST(WeekdayPattern, WorkOnWeekendsOnlyIsSeen) {
  const auto shares = pattern_of(times(8, "0000088")).shares;
  EXPECT_GT(shares[5], 3);
  EXPECT_LT(shares[0], 0.1);
}

TEST(WeekdayPattern, LikeMachinesLendWhatIsUnknown) {
  const LentUse lent{8, 2, {1, 1, 1, 1, 1, 1, 1}};
  const auto shares = pattern_of("88888..", &lent).shares;
  EXPECT_GT(shares[5] / shares[0], 0.8);
}

}  // namespace
}  // namespace hw::due
