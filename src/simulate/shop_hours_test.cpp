#include "src/simulate/shop_hours.h"

#include <gtest/gtest.h>

namespace hw::simulate {
namespace {

const Zone berlin = *Zone::find("Europe/Berlin");

TEST(ShopHours, AFloorDayBeginsAtFour) {
  const LocalDate date = LocalDate::of(2026, 3, 10);
  EXPECT_EQ(floor_day_of(berlin, berlin.at(date, 4 * 60)), date);
  EXPECT_EQ(floor_day_of(berlin, berlin.at(date, 4 * 60) - Duration{1}), date - 1);
}

TEST(ShopHours, TheWallClockRulesOnTheDayAfterItWasSetForward) {
  // Sunday 29 March 2026: the floor's Saturday lasts 23 h, Monday's shift begins at 06:00 all the same.
  const LocalDate monday = LocalDate::of(2026, 3, 30);
  const Instant saturday = begin_of_floor_day(berlin, monday - 2);
  EXPECT_EQ(begin_of_floor_day(berlin, monday - 1) - saturday, Duration::hours(23));
  const auto spans = manned_spans(berlin, monday, 2);
  ASSERT_EQ(spans.size(), 4U);
  EXPECT_EQ(begin_of_floor_day(berlin, monday) + Duration::millis(spans[0].begin_ms), berlin.at(monday, 6 * 60));
  EXPECT_EQ(spans[3].end_ms, 18 * 3'600'000);
}

TEST(ShopHours, ClosedDaysAndWeekendsAreNoWorkingDays) {
  FloorPlan plan;
  plan.closed_on = {LocalDate::of(2026, 4, 3)};
  EXPECT_TRUE(is_working_day(plan, LocalDate::of(2026, 4, 2)));
  EXPECT_FALSE(is_working_day(plan, LocalDate::of(2026, 4, 3)));
  EXPECT_FALSE(is_working_day(plan, LocalDate::of(2026, 4, 4)));
}

}  // namespace
}  // namespace hw::simulate
