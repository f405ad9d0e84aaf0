#include "src/simulate/day_events.h"

#include <gtest/gtest.h>

#include "src/simulate/machine_story.h"

namespace hw::simulate {
namespace {

// Ten minutes: rest, a minute of cutting, rest; the feed is away from 2:30 to 3:30 min.
class ShortDay : public ::testing::Test {
 protected:
  ShortDay() {
    machine.traits.clock_ahead_ms = 7'000;
    script.begin_ms = 1'000'000'000;
    script.end_ms = script.begin_ms + 600'000;
    Phase cut;
    cut.begin_ms = 120'000;
    cut.execution = Execution::active;
    cut.speed_rpm[0] = 1000;
    cut.path_feed_um_s = 10'000;
    cut.axes = 1;
    Phase rest;
    rest.begin_ms = 180'000;
    script.phases = {Phase{}, cut, rest};
    script.losses = {{script.begin_ms + 150'000, script.begin_ms + 210'000}};
  }

  Machine machine = make_machines(std::vector<MachineEntry>{{"v", "V", Kind::vertical_mill}}).front();
  DayScript script;
};

TEST_F(ShortDay, ALossIsStampedByTheAgentAndWhatFollowsByTheMachine) {
  const DayEvents day = events_of(machine, script, FeedQuality::lossy, Detail::full);
  std::size_t lost = 0;
  std::size_t anew = 0;
  for (const Event& event : day.events) {
    const std::int64_t at_ms = event.arrives_at.as_millis() - script.begin_ms;
    const bool is_unknown = counters::is_unknown(event.value);
    EXPECT_EQ(event.at - event.arrives_at, Duration::millis(is_unknown ? 0 : 7'000));
    EXPECT_FALSE(at_ms > 150'000 && at_ms < 210'000) << "nothing comes through";
    lost += is_unknown && at_ms == 150'000 ? 1 : 0;
    anew += !is_unknown && at_ms == 210'000 ? 1 : 0;
  }
  EXPECT_EQ(lost, machine.tells.size());
  EXPECT_EQ(anew, machine.tells.size());
}

TEST_F(ShortDay, AFaithfulFeedKnowsNoLossAndNoSecondClock) {
  const DayEvents day = events_of(machine, script, FeedQuality::faithful, Detail::full);
  ASSERT_FALSE(day.events.empty());
  for (const Event& event : day.events) {
    EXPECT_FALSE(counters::is_unknown(event.value));
    EXPECT_EQ(event.at, event.arrives_at);
  }
}

TEST_F(ShortDay, UseIsTheSumOfItsPhases) {
  TrueUse use;
  add_use(use, script.phases[0], Duration::seconds(120));
  add_use(use, script.phases[1], Duration::seconds(60));
  EXPECT_EQ(use.powered, Duration::seconds(180));
  EXPECT_EQ(use.cutting, Duration::seconds(60));
  EXPECT_EQ(use.each_spindle[1], Duration{});
}

TEST_F(ShortDay, AMovingAxisEndsMoreThanTheDeadBandAway) {
  const std::array<std::int32_t, 3> before{1, 2, 3};
  const auto after = place_after(script.phases[1], before);
  EXPECT_GE(std::abs(after[0] - before[0]), 5'000);
  EXPECT_EQ(after[1], before[1]);
}

}  // namespace
}  // namespace hw::simulate
