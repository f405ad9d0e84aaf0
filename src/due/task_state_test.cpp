#include "src/due/task_state.h"

#include <gtest/gtest.h>

namespace hw::due {
namespace {

using catalogue::CalendarTrigger;
using catalogue::CounterTrigger;
using catalogue::PlantCalendar;

TEST(CounterStanding, TheStateFollowsWhatIsLeftAtEachLimit) {
  const CounterTrigger trigger{"operating", 400, 40, 20};
  const auto state = [&](double used) { return standing(trigger, 1000, 1000 + used).state; };
  EXPECT_EQ(state(0), TaskState::in_hand);
  EXPECT_EQ(state(359.9), TaskState::in_hand);
  EXPECT_EQ(state(360), TaskState::coming);
  EXPECT_EQ(state(399.9), TaskState::coming);
  EXPECT_EQ(state(400), TaskState::due);
  EXPECT_EQ(state(420), TaskState::due);
  EXPECT_EQ(state(420.1), TaskState::overdue);
}

TEST(CounterStanding, UsedAndLeftAlwaysMakeTheInterval) {
  const CounterTrigger trigger{"operating", 400, 40, 20};
  for (double now : {900.0, 1000.0, 1250.5, 2000.0}) {
    const auto at = standing(trigger, 1000, now);
    EXPECT_DOUBLE_EQ(at.used + at.left, 400);
    EXPECT_GE(at.used, 0);
  }
}

PlantCalendar plant_in(std::string_view zone = "Europe/Berlin") {
  PlantCalendar calendar;
  calendar.zone = *Zone::find(zone);
  calendar.shifts = {{"early", 360, 840, {1, 2, 3, 4, 5}}, {"late", 840, 1320, {1, 2, 3, 4, 5}}};
  return calendar;
}

CalendarTrigger every(std::string_view interval, int heads_up = 0, int tolerance = 0) {
  return {*catalogue::parse_calendar_interval(interval), heads_up, tolerance};
}

std::string due_on(const CalendarTrigger& trigger, std::string_view done, std::string_view zone = "Europe/Berlin") {
  const Instant at = *parse_instant(done);
  return print(standing(trigger, plant_in(zone), at, at).due_on);
}

TEST(CalendarStanding, MonthsAndYearsAreDatesOfTheCalendar) {
  EXPECT_EQ(due_on(every("1 month"), "2026-01-31T12:00:00Z"), "2026-02-28");
  EXPECT_EQ(due_on(every("1 year"), "2024-02-29T12:00:00Z"), "2025-02-28");
  EXPECT_EQ(due_on(every("12 months"), "2023-02-28T12:00:00Z"), "2024-02-28");
  EXPECT_EQ(due_on(every("2 weeks"), "2026-03-20T12:00:00Z"), "2026-04-03");
}

TEST(CalendarStanding, TheDayOfDoingIsThePlantsLocalDay) {
  // 23:30 UTC is the next day in Berlin and two hours into it in winter at UTC+13 the day after.
  EXPECT_EQ(due_on(every("1 month"), "2026-06-14T23:30:00Z"), "2026-07-15");
  EXPECT_EQ(due_on(every("1 month"), "2026-06-14T12:30:00Z", "Pacific/Apia"), "2026-07-15");
  EXPECT_EQ(due_on(every("1 month"), "2026-06-14T10:30:00Z", "Pacific/Apia"), "2026-07-14");
}

TEST(CalendarStanding, ADailyCheckSkipsDaysWithoutWork) {
  EXPECT_EQ(due_on(every("1 day"), "2026-03-06T08:00:00Z"), "2026-03-09");
  EXPECT_EQ(due_on(every("3 days"), "2026-03-06T08:00:00Z"), "2026-03-09");
}

TEST(CalendarStanding, HeadsUpDueAndOverdueAreCountedInDays) {
  const auto trigger = every("1 month", 7, 2);
  const auto state = [&](std::string_view now) {
    return standing(trigger, plant_in(), *parse_instant("2026-03-10T08:00:00Z"), *parse_instant(now)).state;
  };
  EXPECT_EQ(state("2026-04-02T12:00:00Z"), TaskState::in_hand);
  EXPECT_EQ(state("2026-04-03T12:00:00Z"), TaskState::coming);
  EXPECT_EQ(state("2026-04-10T12:00:00Z"), TaskState::due);
  EXPECT_EQ(state("2026-04-12T12:00:00Z"), TaskState::due);
  EXPECT_EQ(state("2026-04-13T12:00:00Z"), TaskState::overdue);
}

TEST(CalendarStanding, AShiftsCheckIsDueWhenTheNextTurnBeginsAndOverdueWhenItEnded) {
  const auto state = [&](std::string_view now) {
    return standing(every("1 shift"), plant_in(), *parse_instant("2026-03-06T08:00:00Z"), *parse_instant(now)).state;
  };
  EXPECT_EQ(state("2026-03-06T12:59:00Z"), TaskState::in_hand);  // Friday, early shift
  EXPECT_EQ(state("2026-03-06T13:00:00Z"), TaskState::due);      // the late shift begins at 14:00 local
  EXPECT_EQ(state("2026-03-06T21:00:00Z"), TaskState::overdue);  // it has ended
  const auto weekend = standing(every("1 shift"), plant_in(), *parse_instant("2026-03-06T14:00:00Z"),
                                *parse_instant("2026-03-08T12:00:00Z"));
  EXPECT_EQ(weekend.state, TaskState::in_hand);
  EXPECT_EQ(print(weekend.due_on), "2026-03-09");
}

TEST(CalendarStanding, APlantWithoutShiftsTakesTheDayForTheShift) {
  const Instant done = *parse_instant("2026-03-06T08:00:00Z");
  EXPECT_EQ(print(standing(every("1 shift"), PlantCalendar{}, done, done).due_on), "2026-03-07");
}

}  // namespace
}  // namespace hw::due
