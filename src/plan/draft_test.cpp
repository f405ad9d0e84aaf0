#include "src/plan/draft.h"

#include <algorithm>

#include <gtest/gtest.h>

#include "src/plan/draft_plan.h"
#include "src/plan/even_weights_test.h"
#include "src/plan/machine_moves.h"
#include "src/plan/tiny_instance_test.h"

namespace hw::plan {
namespace {

Instance crowded_instance() {
  numerics::Random random(5);
  std::vector<Machine> machines;
  for (int m = 0; m < 4; ++m) {
    std::vector<Task> tasks;
    for (int t = 0; t < 8; ++t) {
      tasks.push_back(chance_task("t" + std::to_string(t), random));
      tasks.back().first_latest_day.reset();
    }
    machines.push_back(machine_with("m" + std::to_string(m), tasks, 2));
  }
  Instance instance = instance_with(machines, 28, 2);
  instance.crews[0].hours = every_shift(2, 8);
  return instance;
}

// Everything that a file may leave out is there, and the plan is not a tiny one.
Instance crowded_shop() {
  Instance instance = crowded_instance();
  numerics::Random random(6);
  instance.closed_days = {5, 17};
  instance.crews[0].absent = {{3, 0, 6}, {10, 1, 2}, {10, 1, 2}};
  for (Machine& machine : instance.machines) {
    for (std::size_t t = 0; t < machine.tasks.size(); t += 2) {
      machine.tasks[t].agreed = AgreedSlot{random.whole_between(2, 4), random.whole_between(0, 1), {}};
      machine.tasks[t].agreed->move_cost.emplace(random.between(5, 50));
    }
  }
  return instance;
}

void place_every(Draft& draft) {
  for (int m = 0; m < static_cast<int>(draft.choice().size()); ++m) {
    for (int t = 0; t < static_cast<int>(draft.choice()[static_cast<std::size_t>(m)].size()); ++t) draft.place({m, t});
  }
}

Slots slots_by_day(const Model& model) {
  Slots slots;
  for (int day = 0; day < static_cast<int>(model.days); ++day) {
    for (int shift = 0; shift < static_cast<int>(model.shifts); ++shift) {
      slots.push_back(shift * static_cast<int>(model.days) + day);
    }
  }
  return slots;
}

TEST(Draft, CostsWhatItsPlanCostsByDefinition) {
  const Instance instance = crowded_instance();
  const Model model = build_model(instance);
  Draft draft(model);
  place_every(draft);
  const PlanVerdict verdict = evaluate_plan(instance, plan_of(instance, draft));
  EXPECT_TRUE(draft.tasks_without_place().empty());
  EXPECT_TRUE(verdict.problems.empty()) << verdict.problems.front();
  EXPECT_NEAR(draft.cost(), verdict.cost.total(), 1e-6);
}

TEST(Draft, PlacingATaskAnewNeverMakesThePlanDearer) {
  const Instance instance = crowded_instance();
  const Model model = build_model(instance);
  Draft draft(model);
  place_every(draft);
  for (int i = 0; i < 100; ++i) {
    const double before = draft.cost();
    draft.place({i % 4, i / 4 % 8});
    EXPECT_LE(draft.cost(), before + 1e-6);
  }
}

TEST(Draft, Property_AmongAllSlotsATaskIsPlacedAsCheaplyAsWithoutAChoice) {
  const Instance instance = crowded_shop();
  const Model model = build_model(instance);
  Draft draft(model);
  place_every(draft);
  const Slots all = slots_by_day(model);
  for (int i = 0; i < 32; ++i) {
    const TaskAt at{i % 4, i / 4};
    draft.place(at);
    const double anywhere = draft.cost();
    ASSERT_TRUE(draft.place_among(at, all));
    EXPECT_NEAR(draft.cost(), anywhere, 1e-6);
    const Slots before = draft.slots_of(at);
    EXPECT_TRUE(draft.place_among(at, before));
    EXPECT_EQ(draft.slots_of(at), before);
  }
}

// With people enough nothing but the price of the stop itself comes on top.
TEST(Draft, Property_AnOpenStopSavesATaskAtLeastItsGain) {
  Instance instance = crowded_shop();
  instance.crews[0].hours = every_shift(2, 100);
  const Model model = build_model(instance);
  Draft draft(model);
  place_every(draft);
  const std::vector<float> free(model.slots(), 0);
  int gains = 0;
  for (int i = 0; i < 32; ++i) {
    const TaskAt at{i % 4, i / 4};
    const MachineModel& machine = model.machines[static_cast<std::size_t>(at.machine)];
    const EnergyState state = machine.tasks[static_cast<std::size_t>(at.task)].state;
    for (const int slot : slots_by_day(model)) {
      const double gain = draft.gain_with(at, slot);
      if (state == EnergyState::running || draft.stop(at.machine, slot).is_open() || gain <= 0) continue;
      if (!is_allowed(draft.price(at, slot))) continue;
      ++gains;
      Draft tried = draft;
      Slots offered = draft.slots_of(at);
      offered.push_back(slot);
      std::sort(offered.begin(), offered.end(), [](int left, int right) { return left % 28 < right % 28; });
      ASSERT_TRUE(tried.place_among(at, offered, {free.data(), nullptr}));
      EXPECT_LE(tried.cost(), draft.cost() - gain + machine.opening_cost(state, static_cast<std::size_t>(slot)) + 1e-6);
    }
  }
  EXPECT_GT(gains, 50);
}

TEST(MachineMoves, Property_LeaveAPlanThatKeepsAllLimitsAndCostsWhatTheDraftSays) {
  const Instance instance = crowded_shop();
  const Model model = build_model(instance);
  Draft draft(model);
  place_every(draft);
  const SlotWeights weights = even_weights(model);
  MachineMoves moves(draft, weights, {0, 1, 2, 3});
  numerics::Random random(3);
  double moving = 0;
  for (int i = 0; i < 2000; ++i) {
    const double before = draft.cost();
    const bool is_kept = moves.try_one(i % 4, {i % 2 == 0 ? 0.0 : 20.0}, random);
    EXPECT_TRUE((is_kept && i % 2 != 0) || draft.cost() <= before + 1e-6);
    if (i % 100 != 0) continue;
    const PlanVerdict verdict = evaluate_plan(instance, plan_of(instance, draft));
    ASSERT_TRUE(verdict.problems.empty()) << verdict.problems.front();
    ASSERT_NEAR(draft.cost(), verdict.cost.total(), 1e-5);
    moving += *verdict.cost.moving;
  }
  EXPECT_GT(moving, 0);
}

}  // namespace
}  // namespace hw::plan
