#include "src/due/reading_crossing.h"

#include <limits>

#include <gtest/gtest.h>

namespace hw::due {
namespace {

using condition::LimitSide;

const LocalDate monday = LocalDate::of(2026, 3, 2);

// A spindle's vibration in mm/s that grows by about 0.1 a fortnight.
std::vector<DatedReading> growing() {
  std::vector<DatedReading> readings;
  for (int n = 0; n < 10; ++n) readings.push_back({monday + 14 * n, 1.0 + 0.1 * n + (n % 2 == 0 ? 0.02 : -0.02)});
  return readings;
}

TEST(ReadingCrossing, Property_TheChanceRisesAndAFartherLimitIsLater) {
  const auto near = reading_due(growing(), 2.4, LimitSide::above);
  const auto far = reading_due(growing(), 3.2, LimitSide::above);
  ASSERT_TRUE(near && far);
  for (std::size_t n = 1; n < near->size(); ++n) {
    EXPECT_LT((*near)[n - 1].on, (*near)[n].on);
    EXPECT_LT((*near)[n - 1].chance, (*near)[n].chance);
    EXPECT_LE((*near)[n].chance, 1);
  }
  for (const double chance : {.1, .5, .9}) EXPECT_LT(*quantile(*near, chance), *quantile(*far, chance));
}

TEST(ReadingCrossing, TheMiddleIsWhereTheLineWouldBe) {
  const auto due = reading_due(growing(), 2.9, LimitSide::above);  // about 1 to go, 0.1 a fortnight: 140 days
  ASSERT_TRUE(due);
  const int middle = *quantile(*due, .5) - (monday + 126);
  EXPECT_GE(middle, 120);
  EXPECT_LE(middle, 160);
}

TEST(ReadingCrossing, AFallingReadingMirrorsARisingOneAndTheOrderDoesNotMatter) {
  std::vector<DatedReading> falling = growing();
  for (DatedReading& reading : falling) reading.value = -reading.value;
  std::swap(falling[0], falling[7]);
  const auto up = reading_due(growing(), 2.4, LimitSide::above), down = reading_due(falling, -2.4, LimitSide::below);
  ASSERT_TRUE(up && down);
  EXPECT_EQ(quantiles(*up), quantiles(*down));
}

TEST(ReadingCrossing, ALastReadingOnTheLimitIsDueOnItsDay) {
  const auto due = reading_due(growing(), 1.88, LimitSide::above);
  ASSERT_TRUE(due);
  EXPECT_EQ(quantile(*due, .05), monday + 126);
}

TEST(ReadingCrossing, ReadingsThatGoAwayFromTheLimitMayNeverReachIt) {
  const auto due = reading_due(growing(), -5, LimitSide::below);
  ASSERT_TRUE(due);
  EXPECT_FALSE(quantile(*due, .5));
}

TEST(ReadingCrossing, CombinesWithOtherTriggersAsDueDaysDo) {
  const auto due = reading_due(growing(), 2.4, LimitSide::above);
  ASSERT_TRUE(due);
  const std::vector<DueDistribution> both = {*due, on_calendar(monday + 130)};
  EXPECT_EQ(quantile(first_of(both, Together::independent), .95), monday + 130);
}

TEST(ReadingCrossing, RefusesTooFewReadingsAndTwoOnOneDay) {
  std::vector<DatedReading> three = growing();
  three.resize(3);
  EXPECT_FALSE(reading_due(three, 2.4, LimitSide::above));
  std::vector<DatedReading> twice = growing();
  twice.push_back(twice.front());
  const auto refused = reading_due(twice, 2.4, LimitSide::above);
  ASSERT_FALSE(refused);
  EXPECT_EQ(refused.error().message, "2026-03-02: two readings on one day; only one of them can be right");
  EXPECT_FALSE(reading_due(growing(), std::numeric_limits<double>::infinity(), LimitSide::above));
}

}  // namespace
}  // namespace hw::due
