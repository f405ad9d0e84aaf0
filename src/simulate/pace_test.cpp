#include "src/simulate/pace.h"

#include <gtest/gtest.h>

namespace hw::simulate {
namespace {

FloorPlan easter_plan() {
  FloorPlan plan;
  plan.zone = *Zone::find("Europe/Berlin");
  plan.begins_on = LocalDate::of(2026, 3, 2);
  plan.closed_on = {LocalDate::of(2026, 4, 3), LocalDate::of(2026, 4, 6)};
  return plan;
}

Instant at(std::string_view text) { return *parse_instant(text); }

TEST(Pace, NaturalSpeedStampsWithTheRealTime) {
  const Instant now = at("2026-04-08T08:00:00Z");
  const Pace pace{now, now, 1, {}};
  EXPECT_EQ(pace.stamp_at(now), now);
  EXPECT_EQ(pace.stamp_at(now + Duration::millis(1234)), now + Duration::millis(1234));
}

TEST(Pace, FastPlayingCatchesUpWithNowAndNeverPassesIt) {
  const Instant now = at("2026-04-08T08:00:00Z");
  const Pace pace{now, now - Duration::hours(24), 61, {}};
  EXPECT_EQ(pace.stamp_at(now), now - Duration::hours(24));
  EXPECT_EQ(pace.stamp_at(now + Duration::seconds(60)), now - Duration::hours(24) + Duration::seconds(3660));
  // A day's lead is used up after 24 h / 60 = 24 minutes.
  EXPECT_EQ(pace.stamp_at(now + Duration::seconds(24 * 60)), now + Duration::seconds(24 * 60));
  for (int s = 0; s < 4000; s += 7) {
    const Instant real = now + Duration::seconds(s);
    EXPECT_LE(pace.stamp_at(real), real);
    EXPECT_LE(pace.stamp_at(real), pace.stamp_at(real + Duration::seconds(7)));
  }
}

TEST(Pace, AWorkingHourNeedsNoShift) {
  EXPECT_EQ(ahead_for_full_work(easter_plan(), at("2026-04-08T08:45:00Z")), Duration{});
  EXPECT_EQ(ahead_for_full_work(easter_plan(), at("2026-04-08T14:00:00Z")), Duration{});
}

TEST(Pace, ABreakIsNoWorkingHour) {
  // 09:45 in Berlin: everybody has breakfast until 10:00.
  EXPECT_EQ(ahead_for_full_work(easter_plan(), at("2026-04-08T07:45:00Z")), Duration::hours(1));
}

TEST(Pace, ANightIsShiftedToTheNearestEarlyShift) {
  // Wednesday 23:45 in Berlin: Thursday 10:45 is 11 h away, Wednesday 10:45 13 h.
  EXPECT_EQ(ahead_for_full_work(easter_plan(), at("2026-04-08T21:45:00Z")), Duration::hours(11));
  // 22:15: back to the same day's.
  EXPECT_EQ(ahead_for_full_work(easter_plan(), at("2026-04-07T20:15:00Z")),
            Duration{} - Duration::seconds(11 * 3600 + 1800));
}

TEST(Pace, ASundayAndAHolidayAreShiftedToADayOfWork) {
  const FloorPlan plan = easter_plan();
  for (const char* const text : {"2026-04-05T12:00:00Z", "2026-04-03T09:00:00Z", "2026-03-29T01:30:00Z"}) {
    const Instant there = at(text) + ahead_for_full_work(plan, at(text));
    const LocalDate date = plan.zone.date_of(there);
    EXPECT_LE(iso_weekday(date), 5) << print(date);
    EXPECT_EQ(there, plan.zone.at(date, 10 * 60 + 45));
    EXPECT_NE(date, LocalDate::of(2026, 4, 3));
    EXPECT_NE(date, LocalDate::of(2026, 4, 6));
  }
}

TEST(Pace, HistoryIsWhatTheFloorTellsWithShiftedStamps) {
  const Floor floor(easter_plan(), sample_entries());
  const Duration ahead = Duration::hours(11);
  const Instant from = at("2026-03-10T02:00:00Z");
  const Instant to = at("2026-03-12T20:00:00Z");
  std::vector<counters::Observation> history;
  tell_history(floor, 3, from, to, ahead, Detail::turns, [&](std::span<const counters::Observation> piece) {
    history.insert(history.end(), piece.begin(), piece.end());
  });
  std::vector<Event> events = floor.standing(3, from + ahead);
  floor.tell(3, from + ahead, to + ahead, Detail::turns, events);
  ASSERT_EQ(history.size(), events.size());
  for (std::size_t i = 0; i < events.size(); ++i) {
    EXPECT_EQ(history[i].at + ahead, events[i].at);
    EXPECT_EQ(history[i].item, events[i].item);
  }
}

}  // namespace
}  // namespace hw::simulate
