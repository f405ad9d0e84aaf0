#include <gtest/gtest.h>

#include "src/counters/meter.h"
#include "src/counters/scene_test.h"

namespace hw::counters {
namespace {

constexpr double day = 86400;

Meter running_since(double begin_s, std::optional<Duration> silence_limit = {}) {
  CountSettings settings;
  settings.by_day = true;
  settings.silence_limit = silence_limit;
  Meter meter(std::make_shared<const MachineModel>(scene_machine()), settings, MeterUse::live, {});
  settle(meter, mark_at(at_s(begin_s), Mark::window_begin));
  settle(meter, seen(begin_s, exec, 1));
  return meter;
}

std::vector<std::pair<int, std::int64_t>> counted_s(const std::vector<DayTally>& days) {
  std::vector<std::pair<int, std::int64_t>> counted;
  for (const DayTally& one : days) {
    if (one.counter == operating) counted.emplace_back(one.date.days, one.tally.counted_ns() / 1'000'000'000);
  }
  return counted;
}

using Days = std::vector<std::pair<int, std::int64_t>>;

TEST(MeterDays, EachDayThatEndsIsHandedOutOnce) {
  Meter meter = running_since(day - 100);
  settle(meter, seen(3 * day + 50, exec, 0));
  EXPECT_EQ(counted_s(meter.take_days()), Days({{0, 100}, {1, 86400}, {2, 86400}}));
  EXPECT_TRUE(meter.take_days().empty());
  EXPECT_EQ(counted_s(meter.day_so_far()), Days({{3, 50}}));
}

TEST(MeterDays, AChangeAtMidnightBelongsToTheNewDay) {
  Meter meter = running_since(day - 100);
  settle(meter, seen(day, exec, 0));
  settle(meter, seen(day + 1, exec, 1));
  EXPECT_EQ(counted_s(meter.take_days()), Days({{0, 100}}));
  EXPECT_EQ(meter.total(operating).starts, 2U);
}

TEST(MeterDays, SilenceThatBeginsBeforeMidnightIsUnknownOnBothDays) {
  Meter meter = running_since(day - 100, Duration::seconds(40));
  settle(meter, seen(day + 200, speed1, 1));
  const std::vector<DayTally> days = meter.take_days();
  ASSERT_EQ(counted_s(days), Days({{0, 40}}));
  EXPECT_EQ(meter.total(operating).unknown_ns(), ns_of_s(60 + 200));
  EXPECT_EQ(meter.total(operating).starts, 2U) << "what ran before runs again from 200 s after midnight on";
}

// What is heard at the end of a silence tells what holds then; what held before it is no start.
TEST(MeterDays, SilenceEndsWithWhatIsHeardThen) {
  Meter meter = running_since(0, Duration::seconds(40));
  settle(meter, seen(1000, exec, 0));
  settle(meter, seen(1010, exec, 0));
  EXPECT_EQ(meter.total(operating).starts, 1U);
  EXPECT_EQ(meter.total(operating).counted_ns(), ns_of_s(40));
}

}  // namespace
}  // namespace hw::counters
