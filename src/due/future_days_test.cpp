#include "src/due/future_days.h"

#include <gtest/gtest.h>

#include "src/due/life_test.h"

namespace hw::due {
namespace {

constexpr WeekdayShares five_days = {1.4, 1.4, 1.4, 1.4, 1.4, 0, 0};

TEST(FutureDays, SharesAreSummedByWeekday) {
  const auto sums = sum_shares(monday, {}, five_days, {});
  EXPECT_NEAR(sums[0], 1.4, 1e-12);
  EXPECT_NEAR(sums[6], 7, 1e-12);
  EXPECT_NEAR(sums[7], 8.4, 1e-12);
}

TEST(FutureDays, ClosedDaysBringNothing) {
  const auto sums = sum_shares(monday, {monday + 1, monday + 1, monday - 5}, five_days, {});
  EXPECT_EQ(sums[1], sums[0]);
  EXPECT_NEAR(sums[6], 5.6, 1e-12);
}

TEST(FutureDays, AnAnnouncedChangeBeginsOnItsDay) {
  const auto faster = sum_shares(monday, {}, five_days, {ShiftChange{monday + 7, 2, {}}});
  EXPECT_NEAR(faster[6], 7, 1e-12);
  EXPECT_NEAR(faster[7] - faster[6], 2.8, 1e-12);
  const auto saturday = sum_shares(monday, {}, five_days, {ShiftChange{monday, 1, WeekdayShares{1, 1, 1, 1, 1, 1, 0}}});
  EXPECT_NEAR(saturday[5] - saturday[4], 1.4, 1e-12);
}

TEST(FutureDays, AChangeEndsAfterItsLastDayAndSeveralMultiply) {
  const ShiftChange short_time{monday + 7, 0.5, {}, monday + 13};
  const ShiftChange busy{monday + 12, 3, {}, {}};
  const auto sums = sum_shares(monday, {}, {1, 1, 1, 1, 1, 1, 1}, {short_time, busy});
  const auto on = [&](int day) {
    return sums[static_cast<std::size_t>(day)] - sums[static_cast<std::size_t>(day) - 1];
  };
  EXPECT_DOUBLE_EQ(on(6), 1);
  EXPECT_DOUBLE_EQ(on(7), 0.5);
  EXPECT_DOUBLE_EQ(on(12), 1.5);
  EXPECT_DOUBLE_EQ(on(13), 1.5);
  EXPECT_DOUBLE_EQ(on(14), 3);
}

TEST(FutureDays, AChangeThatBeganBeforeTheStartHoldsFromTheStart) {
  const auto sums = sum_shares(monday, {}, {1, 1, 1, 1, 1, 1, 1}, {ShiftChange{monday - 30, 2, {}, monday}});
  EXPECT_DOUBLE_EQ(sums[0], 2);
  EXPECT_DOUBLE_EQ(sums[1], 3);
}

}  // namespace
}  // namespace hw::due
