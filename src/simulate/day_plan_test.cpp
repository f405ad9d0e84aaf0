#include "src/simulate/day_plan.h"

#include <algorithm>

#include <gtest/gtest.h>

#include "src/simulate/part_program.h"

namespace hw::simulate {
namespace {

constexpr std::int32_t hour_ms = 3'600'000;

Machine machine_of(Kind kind, bool is_off_at_night) {
  Machine machine = make_machines(std::vector<MachineEntry>{{"m", "M", kind}}).front();
  machine.traits.is_off_at_night = is_off_at_night;
  return machine;
}

bool rests(const Phase& p) { return !is_operating(p) && !is_feeding(p) && !spindle_turns(p); }

TEST(DayPlan, BeginsAndEndsAtRestAsTheNightIs) {
  for (const bool is_off : {false, true}) {
    const DayFrame frame{24 * hour_ms, {{2 * hour_ms, 10 * hour_ms}, {10 * hour_ms, 18 * hour_ms}}, {}};
    const auto phases = plan_day(machine_of(Kind::mill_turn, is_off), frame, Dice(3));
    EXPECT_EQ(phases.front().begin_ms, 0);
    EXPECT_TRUE(rests(phases.front()) && rests(phases.back()));
    EXPECT_EQ(phases.front().power_is_on, !is_off);
    EXPECT_EQ(phases.back().power_is_on, !is_off);
    for (std::size_t i = 1; i < phases.size(); ++i) {
      ASSERT_LT(phases[i - 1].begin_ms, phases[i].begin_ms);
      EXPECT_TRUE(phases[i].power_is_on || rests(phases[i]));
    }
  }
}

TEST(DayPlan, NothingRunsWhileItIsBrokenDown) {
  const ManSpan down{5 * hour_ms + 123, 9 * hour_ms + 77};
  const DayFrame frame{24 * hour_ms, {{2 * hour_ms, 18 * hour_ms}}, {down}};
  const auto phases = plan_day(machine_of(Kind::lathe, false), frame, Dice(4));
  bool was_isolated = false;
  for (const Phase& phase : phases) {
    const bool is_inside = phase.begin_ms >= down.begin_ms && phase.begin_ms < down.end_ms;
    EXPECT_EQ(phase.has_fault, is_inside);
    EXPECT_TRUE(!is_inside || rests(phase));
    was_isolated = was_isolated || (is_inside && !phase.power_is_on);
  }
  EXPECT_TRUE(was_isolated);
  EXPECT_TRUE(std::any_of(phases.begin(), phases.end(),
                          [&](const Phase& p) { return p.begin_ms > down.end_ms && is_cutting(p); }));
}

TEST(DayPlan, ADayWithoutPeopleIsOneRest) {
  const auto phases = plan_day(machine_of(Kind::five_axis_mill, true), {23 * hour_ms, {}, {}}, Dice(5));
  ASSERT_EQ(phases.size(), 1U);
  EXPECT_FALSE(phases[0].power_is_on);
}

TEST(PhaseWriter, CutsWhatWouldPassTheEndAndLeavesOutStumpsOfMotion) {
  std::vector<Phase> phases;
  PhaseWriter day(phases);
  day.allow_until(10'000);
  Phase moving;
  moving.path_feed_um_s = 5;
  day.hold(moving, 9'000);
  day.hold(moving, 5'000);
  ASSERT_EQ(phases.size(), 2U);
  EXPECT_TRUE(day.is_full());
  EXPECT_EQ(phases[1].path_feed_um_s, 0);
  day.hold(moving, 1'000);
  EXPECT_EQ(phases.size(), 2U);
}

TEST(PhaseWriter, APhaseIsCutWithoutFinishingItsPartTwice) {
  std::vector<Phase> phases(1);
  phases[0].ends_part = true;
  cut_phase_at(phases, 700);
  cut_phase_at(phases, 700);
  ASSERT_EQ(phases.size(), 2U);
  EXPECT_EQ(phases[1].begin_ms, 700);
  EXPECT_FALSE(phases[1].ends_part);
}

}  // namespace
}  // namespace hw::simulate
