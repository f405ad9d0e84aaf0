#include "src/due/daily_use.h"

#include <cmath>
#include <limits>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "src/due/life_test.h"

namespace hw::due {
namespace {

using testing::HasSubstr;

TEST(DailyUse, UnknownDaysAreNotZero) {
  const auto past = arrange(history_of("88.08"));
  ASSERT_TRUE(past);
  EXPECT_EQ(past->known_days, 4);
  EXPECT_EQ(past->unknown_days, 1);
  EXPECT_FALSE(past->days[2].is_counted);
  EXPECT_TRUE(past->days[3].is_counted);
}

TEST(DailyUse, AClosedDayDoesNotCountUnlessItHasUse) {
  UseHistory history = history_of("8808");
  history.closed = {monday - 2, monday - 1};
  const auto past = arrange(history);
  ASSERT_TRUE(past);
  EXPECT_TRUE(past->days[2].is_closed);
  EXPECT_FALSE(past->days[2].is_counted);
  EXPECT_TRUE(past->days[3].is_counted);
  EXPECT_EQ(past->unknown_days, 0);
}

TEST(DailyUse, RefusesWhatCannotBe) {
  UseHistory history = history_of("888");
  history.days.push_back({monday - 1, 5});
  EXPECT_THAT(arrange(history).error().message, HasSubstr("2026-03-01 stands there twice"));
  history.days.back() = {monday, 5};
  EXPECT_THAT(arrange(history).error().message, HasSubstr("not before the start"));
  for (const double used : {-1.0, std::nan(""), std::numeric_limits<double>::infinity(), 2e15}) {
    history.days.back() = {monday - 9, used};
    EXPECT_THAT(arrange(history).error().message, HasSubstr("use must be a number from 0")) << used;
  }
  history.days.back() = {monday - 9, 25.5};
  EXPECT_TRUE(arrange(history));
  history.unit = UseUnit::hours;
  EXPECT_THAT(arrange(history).error().message, HasSubstr("at most 25 h"));
}

TEST(DailyUse, DaysThatAreKnownTogetherShareTheUseEvenlyButForClosedOnes) {
  UseHistory history{monday, {{monday - 5, 8}, {monday - 1, 12, 4}}, {monday - 2}};
  const auto past = arrange(history);
  ASSERT_TRUE(past);
  EXPECT_EQ(past->known_days, 5);
  EXPECT_FALSE(past->days[0].is_shared);
  for (const std::size_t n : {1, 2, 4}) EXPECT_NEAR(past->days[n].used, 4, 1e-12) << n;
  EXPECT_TRUE(past->days[3].is_closed);
  EXPECT_FALSE(past->days[1].is_continued);
  for (const std::size_t n : {2, 3, 4}) EXPECT_TRUE(past->days[n].is_continued) << n;
  // Without use, each of them is known to have had none.
  history.days[1].used = 0;
  EXPECT_FALSE(arrange(history)->days[2].is_shared);
}

TEST(DailyUse, DaysThatAreKnownTogetherAreRefusedWhereTheyLapOver) {
  const UseHistory lapping{monday, {{monday - 5, 8}, {monday - 3, 12, 4}}, {}};
  EXPECT_THAT(arrange(lapping).error().message, HasSubstr("2026-02-24 stands there twice"));
  for (const int days : {0, -3, 100'000}) {
    const UseHistory history{monday, {{monday - 5, 8}, {monday - 1, 12, days}}, {}};
    EXPECT_THAT(arrange(history).error().message, HasSubstr("known together are 1 to")) << days;
  }
  UseHistory hours{monday, {{monday - 5, 8}, {monday - 1, 80, 4}}, {}, UseUnit::hours};
  EXPECT_TRUE(arrange(hours));
  hours.days[1].used = 101;
  EXPECT_THAT(arrange(hours).error().message, HasSubstr("at most 25 h"));
}

TEST(DailyUse, OneDayCarriesNoRange) {
  EXPECT_FALSE(arrange(history_of("8")));
  EXPECT_FALSE(arrange(history_of("")));
  EXPECT_TRUE(arrange(history_of("88")));
}

TEST(DailyUse, WhatIsOlderThanFiveYearsIsLeftOut) {
  UseHistory history = history_of("888");
  history.days.push_back({monday - 3000, 8});
  EXPECT_EQ(arrange(history)->known_days, 3);
}

}  // namespace
}  // namespace hw::due
