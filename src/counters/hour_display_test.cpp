#include "src/counters/hour_display.h"

#include <gtest/gtest.h>

namespace hw::counters {
namespace {

Instant day_at(int n) { return Instant{} + Duration::hours(24 * n); }

const DisplayReading monday{.display_h = 5000, .counted_h = 120, .unknown_h = 3, .at = day_at(0)};

TEST(HourDisplay, TheFirstReadingFitsAndNotesTheOffset) {
  const auto verdict = judge(std::nullopt, monday);
  EXPECT_TRUE(verdict.fits);
  EXPECT_DOUBLE_EQ(verdict.offset_h, 4880);
  EXPECT_DOUBLE_EQ(verdict.difference_h, 4880);
}

TEST(HourDisplay, ARiseLikeTheCountersFits) {
  const auto verdict = judge(monday, {5052, 170, 3, day_at(7)});
  EXPECT_TRUE(verdict.fits) << verdict.says;
  EXPECT_DOUBLE_EQ(verdict.difference_h, 2);
}

TEST(HourDisplay, UnknownTimeMayHaveRunOn) {
  EXPECT_TRUE(judge(monday, {5100, 170, 53, day_at(7)}).fits);
  EXPECT_FALSE(judge(monday, {5100, 170, 13, day_at(7)}).fits);
}

TEST(HourDisplay, AFallAJumpAndAStandstillWaitForAPerson) {
  const auto fall = judge(monday, {12, 170, 3, day_at(7)});
  EXPECT_FALSE(fall.fits);
  EXPECT_NE(fall.says.find("fell by 4988.0 h"), std::string::npos);
  const auto jump = judge(monday, {5500, 170, 3, day_at(7)});
  EXPECT_FALSE(jump.fits);
  EXPECT_NE(jump.says.find("in 168.0 h"), std::string::npos);
  EXPECT_FALSE(judge(monday, {5000, 170, 3, day_at(7)}).fits);
  EXPECT_FALSE(judge(monday, {5010, 130, 3, day_at(-1)}).fits);
}

TEST(HourDisplay, RoundingAtTheDisplayIsNoFall) { EXPECT_TRUE(judge(monday, {4999.5, 120, 3, day_at(1)}).fits); }

}  // namespace
}  // namespace hw::counters
