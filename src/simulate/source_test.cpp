#include "src/simulate/source.h"

#include <algorithm>

#include <gtest/gtest.h>

#include "src/simulate/april_test.h"

namespace hw::simulate {
namespace {

const Instant day_end = *parse_instant("2026-04-08T01:30:00Z");  // half an hour before the floor's day ends

TEST(FloorSource, TakenInSmallStepsIsWhatTheFloorTells) {
  const Floor floor(april_plan(), sample_entries());
  const Duration ahead = Duration::hours(3);
  const auto source = play(floor, {day_end, day_end, 1, ahead});
  std::vector<Arrival> taken;
  const Instant end = day_end + Duration::hours(2);
  for (Instant now = day_end; now < end; now = now + Duration::millis(9'973)) source->take(now, taken);
  source->take(end, taken);
  std::vector<std::vector<Event>> by_machine(24);
  for (const Arrival& arrival : taken) by_machine[arrival.machine].push_back(arrival.event);
  for (std::size_t m = 0; m < 24; ++m) {
    std::vector<Event> told;
    floor.tell(m, day_end + ahead, end + ahead, Detail::full, told);
    ASSERT_EQ(by_machine[m].size(), told.size()) << m;
    for (std::size_t i = 0; i < told.size(); ++i) {
      EXPECT_EQ(by_machine[m][i].at + ahead, told[i].at);
      EXPECT_EQ(by_machine[m][i].item, told[i].item);
    }
  }
  EXPECT_FALSE(taken.empty());
  EXPECT_TRUE(std::is_sorted(taken.begin(), taken.end(), [](const Arrival& a, const Arrival& b) {
    return a.event.arrives_at < b.event.arrives_at;
  }));
}

TEST(FloorSource, NothingComesFromTheFuture) {
  const Floor floor(april_plan(), sample_entries());
  const auto source = play(floor, {day_end, day_end - Duration::hours(20), 3600, {}});
  std::vector<Arrival> taken;
  for (int s = 0; s <= 40; ++s) {
    const Instant now = day_end + Duration::seconds(s);
    source->take(now, taken);
    EXPECT_LE(source->taken_until(now), now);
    for (const Arrival& arrival : taken) ASSERT_LE(arrival.event.arrives_at, now);
  }
  EXPECT_EQ(source->taken_until(day_end + Duration::seconds(40)), day_end + Duration::seconds(40));
}

TEST(FloorSource, AfterALongSleepItComesInParts) {
  const Floor floor(april_plan(), sample_entries());
  const auto source = play(floor, {day_end, day_end, 1, {}});
  std::vector<Arrival> taken;
  const Instant now = day_end + Duration::hours(60);
  int calls = 0;
  for (; source->taken_until(now) < now; ++calls) {
    taken.clear();
    source->take(now, taken);
    ASSERT_LT(taken.size(), 200'000U);
  }
  EXPECT_EQ(calls, 30);
}

TEST(FloorSource, StandingAndWhatFollowsLeaveNoGap) {
  const Floor floor(april_plan(), sample_entries());
  const auto source = play(floor, {day_end, day_end - Duration::hours(4), 100, {}});
  std::vector<Arrival> standing;
  source->take_standing(standing);
  ASSERT_FALSE(standing.empty());
  EXPECT_EQ(standing.front().event.arrives_at, day_end - Duration::hours(4));
  EXPECT_EQ(source->taken_until(day_end + Duration::seconds(5)), day_end - Duration::hours(4));
}

TEST(ReplaySource, PlaysTheListAtItsPaceAndThenStays) {
  const Floor floor(april_plan(), sample_entries());
  std::vector<Event> events;
  floor.tell(0, day_end + Duration::hours(4), day_end + Duration::hours(6), Detail::full, events);
  ASSERT_GT(events.size(), 100U);
  std::vector<Arrival> list;
  for (std::size_t i = 0; i < 100; ++i) list.push_back({0, events[i]});
  const auto source = replay(floor.machines(), list, 20);
  std::vector<Arrival> taken;
  const Instant real = day_end + Duration::hours(1000);
  EXPECT_EQ(source->taken_until(real), list[0].event.at);
  source->take(real, taken);
  EXPECT_EQ(taken.size(), 0U);
  source->take(real + Duration::seconds(2), taken);
  EXPECT_EQ(taken.size(), 40U);
  source->take(real + Duration::seconds(3), taken);
  EXPECT_EQ(taken.size(), 60U);
  source->take(real + Duration::hours(3), taken);
  source->take(real + Duration::hours(4), taken);
  ASSERT_EQ(taken.size(), 100U);
  for (std::size_t i = 0; i < 100; ++i) EXPECT_EQ(taken[i].event.at, list[i].event.at);
}

}  // namespace
}  // namespace hw::simulate
