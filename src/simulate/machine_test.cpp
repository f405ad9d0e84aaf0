#include "src/simulate/machine.h"

#include <algorithm>
#include <set>

#include <gtest/gtest.h>

#include "src/simulate/device_items.h"
#include "src/simulate/kind_numbers.h"

namespace hw::simulate {
namespace {

TEST(Machines, AFloorOfTwentyFourHasEveryOddity) {
  const std::vector<Machine> machines = make_machines(sample_entries());
  ASSERT_EQ(machines.size(), 24U);
  const auto some = [&](auto&& says) {
    return std::any_of(machines.begin(), machines.end(), [&](const Machine& m) { return says(m.traits); });
  };
  EXPECT_TRUE(some([](const Traits& t) { return !t.has_availability; }));
  EXPECT_TRUE(some([](const Traits& t) { return !t.has_feed_rates && t.has_positions; }));
  EXPECT_TRUE(some([](const Traits& t) { return t.timers == Timers::accumulated; }));
  EXPECT_TRUE(some([](const Traits& t) { return t.timers == Timers::equipment; }));
  EXPECT_TRUE(some([](const Traits& t) { return t.timers == Timers::coarse; }));
  EXPECT_TRUE(some([](const Traits& t) { return t.spindles == 2 && t.spindle_can_contour; }));
  EXPECT_TRUE(some([](const Traits& t) { return t.falls_silent_when_off; }));
  EXPECT_TRUE(some([](const Traits& t) { return t.is_off_at_night && !t.falls_silent_when_off; }));
  EXPECT_TRUE(some([](const Traits& t) { return t.clock_ahead_ms >= 2000; }));
  EXPECT_TRUE(some([](const Traits& t) { return t.edition == Edition::v1_3; }));
  EXPECT_TRUE(some([](const Traits& t) { return t.edition == Edition::v1_7; }));
}

TEST(Machines, RolesAreThoseThatTheCountersGive) {
  for (const Machine& machine : make_machines(sample_entries())) {
    ASSERT_EQ(machine.model.items.size(), machine.tells.size());
    for (const counters::Item& item : machine.model.items) {
      EXPECT_EQ(item.role, counters::role_of(item)) << item.id << " " << item.type << " " << item.sub_type;
    }
  }
}

TEST(Machines, IdsAreUniqueOnTheFloor) {
  std::set<std::string> ids;
  for (const Machine& machine : make_machines(sample_entries())) {
    EXPECT_TRUE(ids.insert(machine.uuid).second);
    for (const counters::Item& item : machine.model.items) EXPECT_TRUE(ids.insert(item.id).second) << item.id;
  }
}

TEST(Machines, ItemsFollowFromTheTraits) {
  Machine machine;
  machine.entry = {"g1", "Grinder", Kind::surface_grinder};
  machine.traits.has_availability = false;
  machine.traits.has_feed_rates = false;
  machine.traits.has_positions = true;
  add_items(machine);
  const auto count = [&](Signal signal) {
    return std::count_if(machine.tells.begin(), machine.tells.end(),
                         [&](const Tells& t) { return t.signal == signal; });
  };
  EXPECT_EQ(count(Signal::availability), 0);
  EXPECT_EQ(count(Signal::path_feed) + count(Signal::axis_feed), 0);
  EXPECT_EQ(count(Signal::position), 3);
  EXPECT_EQ(count(Signal::spindle_speed), 1);
}

TEST(Machines, NumbersOfEachKindAreRanges) {
  for (int i = 0; i < kinds; ++i) {
    const KindNumbers& n = numbers_of(static_cast<Kind>(i));
    for (const Range& range : {n.tools, n.cut_s, n.speed_rpm, n.cut_feed_um_s, n.load_s, n.set_up_min, n.parts}) {
      EXPECT_GT(range.min, 0);
      EXPECT_GT(range.max, range.min);
    }
    EXPECT_GT(n.rapid_um_s, 0);
    EXPECT_TRUE(n.shifts == 1 || n.shifts == 2);
  }
}

TEST(Machines, EveryKindIsReadAsItIsPrinted) {
  for (int i = 0; i < kinds; ++i) EXPECT_EQ(parse_kind(print(static_cast<Kind>(i))), static_cast<Kind>(i));
  EXPECT_FALSE(parse_kind("turning-centre"));
}

}  // namespace
}  // namespace hw::simulate
