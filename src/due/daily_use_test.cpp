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
