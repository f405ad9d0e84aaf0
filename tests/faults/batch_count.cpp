#include "tests/faults/batch_count.h"

#include <gtest/gtest.h>

#include "src/counters/count_run.h"

namespace hw::faults {
namespace {

using counters::CounterKey;
using counters::CounterKind;

std::vector<counters::Observation> observations_of(const Scene& scene, std::uint32_t machine) {
  std::vector<counters::Observation> out;
  for (const auto& arrival : scene.arrivals) {
    if (arrival.machine == machine) out.push_back(observation_of(scene.machines[machine], arrival.event));
  }
  return out;
}

void expect_same(const KeptMachine& kept, const CounterKey& key, const counters::Tally& batch) {
  const counters::Tally* live = find(kept, key);
  ASSERT_NE(live, nullptr) << print(key);
  EXPECT_EQ(live->ns, batch.ns) << print(key);
}

}  // namespace

const counters::Tally* find(const KeptMachine& kept, const CounterKey& key) {
  for (const auto& total : kept.snapshot.totals) {
    if (total.key == key) return &total.tally;
  }
  return nullptr;
}

void expect_as_in_batch(const Scene& scene, std::uint32_t machine, const KeptMachine& kept) {
  const auto& model = scene.machines[machine].model;
  const auto list = observations_of(scene, machine);
  const counters::Source source{list};
  const auto report = counters::count_run(model, {&source, 1}, {kept.begin, scene.ends_at}, {});
  ASSERT_TRUE(report) << report.error().message;
  for (std::size_t kind = 0; kind < counters::machine_counters; ++kind) {
    const CounterKey key{static_cast<CounterKind>(kind), ""};
    ASSERT_EQ(find(kept, key) != nullptr, report->counters[kind].has_value()) << print(key);
    if (report->counters[kind]) expect_same(kept, key, *report->counters[kind]);
  }
  for (const auto& item : report->items) {
    const counters::Role role = model.items[item.item].role;
    if (role == counters::Role::spindle_speed) expect_same(kept, {CounterKind::spindle, item.label}, item.tally);
    if (role == counters::Role::axis_feed) expect_same(kept, {CounterKind::axis, item.label}, item.tally);
  }
}

void expect_conserved(const KeptShop& kept) {
  for (const auto& [key, machine] : kept.machines) {
    for (const auto& total : machine.snapshot.totals) {
      const counters::Tally& tally = total.tally;
      const std::int64_t sum = tally.counted_ns() + tally.false_ns() + tally.unknown_ns();
      EXPECT_EQ(sum, (machine.snapshot.at - machine.begin).ns) << key << " " << print(total.key);
      for (const std::int64_t ns : tally.ns) EXPECT_GE(ns, 0) << key << " " << print(total.key);
    }
  }
}

}  // namespace hw::faults
