#include "src/counters/meter.h"

#include <gtest/gtest.h>

#include "src/counters/scene_test.h"
#include "src/counters/tally.h"

namespace hw::counters {
namespace {

constexpr auto axis = static_cast<std::size_t>(CounterKind::axis);

Meter live_meter(CountSettings settings = {}) {
  Meter meter(std::make_shared<const MachineModel>(scene_machine()), std::move(settings), MeterUse::live, {});
  settle(meter, mark_at(at_s(0), Mark::window_begin));
  return meter;
}

TEST(Meter, ACounterIsThereFromWhenItsItemsAreFirstKnown) {
  Meter meter = live_meter();
  settle(meter, seen(5, exec, gone));
  EXPECT_FALSE(meter.is_present(operating));
  settle(meter, seen(10, exec, 1));
  settle(meter, seen(30, exec, 0));
  EXPECT_TRUE(meter.is_present(operating));
  EXPECT_EQ(meter.total(operating).counted_ns(), ns_of_s(20));
  EXPECT_EQ(meter.total(operating).unknown_ns(), 0);
}

TEST(Meter, OnceAFeedRateIsKnownPositionsDoNotCountAnyLonger) {
  MachineModel model = scene_machine();
  model.items.push_back(item_of("X", Role::position));
  const auto position = static_cast<std::uint32_t>(model.items.size() - 1);
  Meter meter(std::make_shared<const MachineModel>(model), {}, MeterUse::live, {});
  settle(meter, mark_at(at_s(0), Mark::window_begin));
  settle(meter, seen(0, position, 1));
  EXPECT_TRUE(meter.motion_from_positions());
  settle(meter, seen(10, axis_x, 0));
  EXPECT_FALSE(meter.motion_from_positions());
  settle(meter, seen(30, axis_x, 7));
  settle(meter, seen(60, exec, 0));
  EXPECT_EQ(meter.total(axis).counted_ns(), ns_of_s(10 + 30));
}

TEST(Meter, TheStateAndItsBeginningAreKnown) {
  Meter meter = live_meter();
  settle(meter, seen(10, exec, 1));
  settle(meter, seen(20, speed1, 1));
  EXPECT_EQ(meter.state(operating), Truth::yes);
  EXPECT_EQ(meter.turned_at(operating), at_s(10));
}

TEST(Meter, NestedBlindTimeEndsWithTheLast) {
  Meter meter = live_meter();
  settle(meter, seen(0, exec, 1));
  settle(meter, mark_at(at_s(10), Mark::blind_begin));
  settle(meter, mark_at(at_s(15), Mark::blind_begin));
  settle(meter, mark_at(at_s(20), Mark::blind_end));
  settle(meter, mark_at(at_s(30), Mark::blind_end));
  settle(meter, mark_at(at_s(40), Mark::window_end));
  EXPECT_EQ(meter.total(operating).counted_ns(), ns_of_s(20));
  EXPECT_EQ(meter.total(operating).unknown_ns(), ns_of_s(20));
}

TEST(Meter, TalliesAddUpPartByPart) {
  Tally sum{{1, 2, 3}, 4, 5, 6};
  sum += Tally{{10, 20, 30}, 40, 50, 60};
  EXPECT_EQ(sum, (Tally{{11, 22, 33}, 44, 55, 66}));
}

}  // namespace
}  // namespace hw::counters
