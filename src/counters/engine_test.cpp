#include "src/counters/engine.h"

#include <atomic>
#include <cstdlib>
#include <new>

#include <gtest/gtest.h>

#include "src/counters/naive_test.h"

namespace {

std::atomic<std::uint64_t> allocations{0};

}  // namespace

// Every allocation of this test program is counted.
[[gnu::noinline]] void* operator new(std::size_t size) {
  ++allocations;
  if (void* memory = std::malloc(size)) return memory;
  throw std::bad_alloc();
}
[[gnu::noinline]] void* operator new(std::size_t size, const std::nothrow_t&) noexcept {
  ++allocations;
  return std::malloc(size);
}
[[gnu::noinline]] void operator delete(void* memory) noexcept { std::free(memory); }
[[gnu::noinline]] void operator delete(void* memory, std::size_t) noexcept { std::free(memory); }

namespace hw::counters {
namespace {

std::uint64_t allocated_while_counting(const MachineModel& model, int count) {
  naive::Chance chance(7);
  std::vector<Observation> all;
  for (int n = 0; n < count; ++n) {
    const auto item = static_cast<std::uint32_t>(chance.below(model.items.size()));
    all.push_back({{n * Duration::millis(100).ns}, item, chance.value(model.items[item].role)});
  }
  Engine engine(std::make_shared<const MachineModel>(model), {}, MeterUse::recording,
                std::vector<bool>(model.items.size(), true));
  engine.observe(mark_at(Instant{0}, Mark::window_begin));
  const std::size_t warm = all.size() / 10;
  for (std::size_t n = 0; n < warm; ++n) engine.observe(all[n]);
  const std::uint64_t before = allocations;
  for (std::size_t n = warm; n < all.size(); ++n) engine.observe(all[n]);
  return allocations - before;
}

TEST(Engine, AllocatesNothingPerObservationInSteadyState) {
  EXPECT_EQ(allocated_while_counting(scene_machine(), 20'000), 0U);
}

TEST(Engine, AllocatesNothingWhereMotionComesFromPositions) {
  MachineModel model;
  model.items = {item_of("X", Role::position), item_of("Y", Role::position), item_of("exec", Role::execution)};
  EXPECT_EQ(allocated_while_counting(model, 20'000), 0U);
}

TEST(Engine, ACopyGoesItsOwnWay) {
  Engine engine(std::make_shared<const MachineModel>(scene_machine()), {}, MeterUse::live);
  engine.observe(mark_at(at_s(0), Mark::window_begin));
  engine.observe(seen(0, exec, 1));
  engine.observe(seen(0, path, 0));
  Engine copy = engine;
  copy.observe(mark_at(at_s(50), Mark::window_end));
  copy.drain();
  engine.observe(mark_at(at_s(10), Mark::window_end));
  engine.drain();
  EXPECT_EQ(copy.meter().total(2).counted_ns(), ns_of_s(50));
  EXPECT_EQ(engine.meter().total(2).counted_ns(), ns_of_s(10));
}

}  // namespace
}  // namespace hw::counters
