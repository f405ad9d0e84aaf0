#include "libs/values/zone.h"

#include <gtest/gtest.h>

namespace hw {
namespace {

TEST(LocalDate, DaysThatDoNotExistAreRefused) {
  EXPECT_TRUE(parse_local_date("2024-02-29").has_value());
  for (const char* text :
       {"2023-02-29", "2026-13-01", "2026-00-10", "2026-1-1", "26-01-01", "", "2026-01-01T", "2026-+1-01"}) {
    EXPECT_FALSE(parse_local_date(text).has_value()) << text;
  }
}

TEST(LocalDate, AMonthOnFromThe31stIsTheLastDayOfAShorterMonth) {
  EXPECT_EQ(print(add_months(LocalDate::of(2024, 1, 31), 1)), "2024-02-29");
  EXPECT_EQ(print(add_months(LocalDate::of(2025, 1, 31), 1)), "2025-02-28");
  EXPECT_EQ(print(add_months(LocalDate::of(2024, 2, 29), 12)), "2025-02-28");
  EXPECT_EQ(print(add_months(LocalDate::of(2025, 3, 31), -1)), "2025-02-28");
}

TEST(LocalDate, WeekdaysAreCountedFromMonday) {
  EXPECT_EQ(iso_weekday(LocalDate::of(2026, 3, 2)), 1);
  EXPECT_EQ(iso_weekday(LocalDate::of(2026, 3, 8)), 7);
}

TEST(Zone, SpringAndAutumnDaysHave23And25Hours) {
  const Zone berlin = *Zone::find("Europe/Berlin");
  const auto hours = [&](LocalDate date) { return (berlin.end_of(date) - berlin.begin_of(date)).as_hours(); };
  EXPECT_EQ(hours(LocalDate::of(2026, 3, 29)), 23);
  EXPECT_EQ(hours(LocalDate::of(2026, 10, 25)), 25);
  EXPECT_EQ(hours(LocalDate::of(2026, 7, 1)), 24);
}

TEST(Zone, ADayBeginsAfterASkippedMidnight) {
  // Beirut's clocks jump from 00:00 to 01:00: that day begins at 01:00 by the wall (tzdata).
  const Zone beirut = *Zone::find("Asia/Beirut");
  const LocalDate day = LocalDate::of(2024, 3, 31);
  EXPECT_EQ(print(beirut.begin_of(day)), "2024-03-30T22:00:00Z");
  EXPECT_EQ(beirut.date_of(beirut.begin_of(day)), day);
  EXPECT_EQ(beirut.date_of({beirut.begin_of(day).ns - 1}), day - 1);
}

TEST(Zone, Property_EveryMomentLiesInTheDayThatHoldsIt) {
  for (const char* name :
       {"Europe/Berlin", "Pacific/Apia", "America/St_Johns", "Asia/Kathmandu", "Pacific/Kiritimati", "UTC"}) {
    const Zone zone = *Zone::find(name);
    for (std::int64_t hour = 0; hour < 24 * 400; ++hour) {
      const Instant at = Instant{1'767'225'600'000'000'000} + Duration::hours(hour);
      const LocalDate day = zone.date_of(at);
      EXPECT_LE(zone.begin_of(day), at) << name << print(at);
      EXPECT_LT(at, zone.end_of(day)) << name << print(at);
    }
  }
}

TEST(Zone, AnUnknownZoneIsRefused) {
  EXPECT_FALSE(Zone::find("Europe/Nowhere").has_value());
  EXPECT_FALSE(Zone::find("").has_value());
}

}  // namespace
}  // namespace hw
