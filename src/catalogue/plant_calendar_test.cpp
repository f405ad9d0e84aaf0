#include "src/catalogue/plant_calendar.h"

#include <gtest/gtest.h>

#include "src/catalogue/calendar_interval.h"

namespace hw::catalogue {
namespace {

PlantCalendar two_shifts() {
  PlantCalendar calendar;
  calendar.zone = *Zone::find("Europe/Berlin");
  calendar.shifts = {{"early", 360, 840, {1, 2, 3, 4, 5}}, {"night", 1320, 360, {1, 2, 3, 4}}};
  calendar.closed = {{LocalDate::of(2026, 3, 4), "works holiday"}};
  return calendar;
}

TEST(PlantCalendar, WeekendsAndClosedDaysAreNoWorkingDays) {
  const auto calendar = two_shifts();
  EXPECT_TRUE(calendar.works_on(LocalDate::of(2026, 3, 3)));
  EXPECT_FALSE(calendar.works_on(LocalDate::of(2026, 3, 4)));
  EXPECT_FALSE(calendar.works_on(LocalDate::of(2026, 3, 7)));
  EXPECT_EQ(print(calendar.next_working_day(LocalDate::of(2026, 3, 3))), "2026-03-05");
  EXPECT_EQ(print(calendar.next_working_day(LocalDate::of(2026, 3, 6))), "2026-03-09");
}

TEST(PlantCalendar, ANightShiftEndsOnTheNextDay) {
  const PlantCalendar calendar = two_shifts();  // the turns point into it
  const auto turns = calendar.turns_on(LocalDate::of(2026, 3, 2));
  ASSERT_EQ(turns.size(), 2u);
  EXPECT_EQ(turns[1].shift->name, "night");
  EXPECT_EQ(print(turns[1].ends_at), "2026-03-03T05:00:00Z");
}

TEST(PlantCalendar, ANightShiftIsAnHourShorterWhenTheClocksGoForward) {
  auto calendar = two_shifts();
  calendar.shifts = {{"night", 1320, 360, {6}}};
  const auto turn = calendar.turns_on(LocalDate::of(2026, 3, 28)).at(0);
  EXPECT_EQ((turn.ends_at - turn.begins_at).as_hours(), 7);
}

TEST(PlantCalendar, TheTurnNowAndTheNextOneAreFound) {
  const auto calendar = two_shifts();
  const Instant monday_noon = *parse_instant("2026-03-02T11:00:00Z");
  EXPECT_EQ(calendar.turn_at_or_before(monday_noon)->shift->name, "early");
  EXPECT_EQ(print(calendar.turn_after(monday_noon)->begins_at), "2026-03-02T21:00:00Z");
  const Instant sunday = *parse_instant("2026-03-08T11:00:00Z");
  EXPECT_EQ(print(calendar.turn_at_or_before(sunday)->on), "2026-03-06");
  EXPECT_EQ(print(calendar.turn_after(sunday)->on), "2026-03-09");
}

TEST(PlantCalendar, WithoutShiftsEveryOpenDayCounts) {
  PlantCalendar calendar;
  EXPECT_TRUE(calendar.works_on(LocalDate::of(2026, 3, 8)));
  EXPECT_FALSE(calendar.turn_after(Instant{0}).has_value());
}

TEST(CalendarInterval, ReadsWhatItPrintsAndRefusesTheRest) {
  for (const char* text : {"1 shift", "1 day", "2 weeks", "12 months", "1 year"}) {
    EXPECT_EQ(print(*parse_calendar_interval(text)), text);
  }
  for (const char* text : {"", "month", "0 days", "-1 day", "1001 days", "1  day", "1 fortnight", "1.5 days", "1 "}) {
    EXPECT_FALSE(parse_calendar_interval(text).has_value()) << text;
  }
}

}  // namespace
}  // namespace hw::catalogue
