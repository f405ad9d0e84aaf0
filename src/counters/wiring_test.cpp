#include "src/counters/wiring.h"

#include <gtest/gtest.h>

#include "src/counters/scene_test.h"

namespace hw::counters {
namespace {

Gate gate_of(Joint joint, std::initializer_list<Truth> inputs) {
  Gate gate{.joint = joint, .inputs = static_cast<std::uint32_t>(inputs.size())};
  for (const Truth input : inputs) gate.set(input);
  return gate;
}

constexpr Truth no = Truth::no, yes = Truth::yes, unknown = Truth::unknown;

TEST(Wiring, GatesJoinThreeValues) {
  EXPECT_EQ(gate_of(Joint::any, {no, unknown, yes}).joined(), yes);
  EXPECT_EQ(gate_of(Joint::any, {no, unknown}).joined(), unknown);
  EXPECT_EQ(gate_of(Joint::any, {no, no}).joined(), no);
  EXPECT_EQ(gate_of(Joint::all, {yes, unknown, no}).joined(), no);
  EXPECT_EQ(gate_of(Joint::all, {yes, unknown}).joined(), unknown);
  EXPECT_EQ(gate_of(Joint::all, {yes, yes}).joined(), yes);
  EXPECT_EQ(gate_of(Joint::all_known, {yes, unknown, no}).joined(), unknown);
  EXPECT_EQ(gate_of(Joint::all_known, {yes, no}).joined(), no);
}

TEST(Wiring, AGateFollowsItsInputsOneByOne) {
  Gate gate = gate_of(Joint::any, {unknown, unknown, unknown});
  gate.change(unknown, no);
  gate.change(unknown, yes);
  EXPECT_EQ(gate.joined(), yes);
  gate.change(yes, no);
  EXPECT_EQ(gate.joined(), unknown);
  gate.change(unknown, no);
  EXPECT_EQ(gate.joined(), no);
}

TEST(Wiring, WhatIsNotPresentFeedsNothing) {
  const MachineModel model = scene_machine();
  std::vector<bool> present(model.items.size());
  present[exec] = present[speed2] = present[load1] = true;
  const Wiring wiring(model.items, {}, present);
  EXPECT_NE(wiring.counter_gates[static_cast<std::size_t>(CounterKind::operating)], no_gate);
  EXPECT_EQ(wiring.counter_gates[static_cast<std::size_t>(CounterKind::cutting)], no_gate) << "nothing feeds";
  EXPECT_TRUE(wiring.uses(speed2));
  EXPECT_FALSE(wiring.uses(speed1));
  EXPECT_FALSE(wiring.uses(load1)) << "there is no limit";
  EXPECT_TRUE(wiring.motion_from_positions);
}

TEST(Wiring, AGateStandsBeforeTheOneItFeeds) {
  const MachineModel model = scene_machine();
  CountSettings settings;
  settings.load_above_percent = 5;
  const Wiring wiring(model.items, settings, std::vector<bool>(model.items.size(), true));
  for (std::size_t n = 0; n < wiring.gates.size(); ++n) {
    if (wiring.gates[n].out == no_gate) continue;
    EXPECT_LT(n, wiring.gates[n].out);
  }
  EXPECT_TRUE(wiring.uses(load1));
}

}  // namespace
}  // namespace hw::counters
