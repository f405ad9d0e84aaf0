#include "src/due/reading_trend.h"

#include <gtest/gtest.h>

namespace hw::due {
namespace {

const LocalDate first_read = *parse_local_date("2026-03-02");

// One reading a day.
std::vector<DatedReading> read_daily(const std::vector<double>& values) {
  std::vector<DatedReading> readings;
  for (std::size_t i = 0; i < values.size(); ++i) readings.push_back({first_read + static_cast<int>(i), values[i]});
  return readings;
}

TEST(ReadingTrend, ADayCountsOnceByItsMedianAndOnlyTheLatestFortyDaysCount) {
  const auto days = days_of({{first_read + 1, 6}, {first_read, 5.8}, {first_read, 6.2}, {first_read, 5.9}});
  ASSERT_EQ(days.size(), 2U);
  EXPECT_EQ(days[0].value, 5.9);
  EXPECT_EQ(days[1].value, 6);
  const auto latest = days_of(read_daily(std::vector<double>(50, 6)));
  ASSERT_EQ(latest.size(), trend_days_max);
  EXPECT_EQ(latest.back().on, first_read + 49);
}

TEST(ReadingTrend, AFallingPressureFallsByTheSlopeOfTheilAndSen) {
  const auto trend = *trend_of(read_daily({6.2, 6.1, 6.1, 6.0, 5.9, 5.9, 5.8, 5.7}));
  EXPECT_EQ(trend.direction, ReadingDirection::falling);
  EXPECT_NEAR(trend.sen.slope, -0.07, 0.02);
  // S = -26 of 28 pairs with two ties; few orders lie as far out.
  EXPECT_EQ(trend.kendall.S, -26);
  EXPECT_LT(trend.p, 0.001);
}

TEST(ReadingTrend, ValuesThatGoUpAndDownHaveNone) {
  const auto trend = *trend_of(read_daily({6.0, 6.1, 5.9, 6.0, 6.1, 5.9, 6.0, 6.1}));
  EXPECT_EQ(trend.direction, ReadingDirection::none_seen);
}

TEST(ReadingTrend, OneThatJumpsIsOutOfTheChart) {
  std::vector<double> values{6.0, 6.1, 6.0, 5.9, 6.0, 6.1, 6.0, 5.9, 6.0, 6.1, 6.0, 6.0};
  values.push_back(7.0);
  const auto trend = *trend_of(read_daily(values));
  EXPECT_EQ(trend.chart.out, std::vector<std::size_t>{13});
  EXPECT_EQ(trend.calls.at(0).at, std::vector<std::size_t>{13});
}

TEST(ReadingTrend, RefusesTooFewDaysAndANeedleThatNeverMovesInWords) {
  const auto few = trend_of(read_daily({6, 5.9, 5.8}));
  ASSERT_FALSE(few);
  EXPECT_EQ(few.error().saying->code, "reading-few");
  EXPECT_EQ(few.error().saying->numbers.at("count"), 3);
  const auto alike = trend_of(read_daily({6, 6, 6, 6, 6}));
  ASSERT_FALSE(alike);
  EXPECT_EQ(alike.error().saying->code, "reading-alike");
}

TEST(ReadingTrend, LimitsAreToldFromTheLowestAndAValueOnOneIsWithin) {
  const auto limits = limits_of({"supply air", "bar", {5.5, 6.5}, {5.0, 7.0}});
  ASSERT_EQ(limits.size(), 4U);
  EXPECT_EQ(limits[0].at, 5.0);
  EXPECT_EQ(limits[3].at, 7.0);
  EXPECT_FALSE(is_beyond(limits[1], 5.5));
  EXPECT_TRUE(is_beyond(limits[1], 5.4));
  EXPECT_TRUE(is_beyond(limits[3], 7.1));
}

}  // namespace
}  // namespace hw::due
