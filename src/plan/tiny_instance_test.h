#pragma once
// Small instances for tests: made by hand or by chance, small enough to try everything.

#include "libs/numerics/random.h"
#include "src/plan/instance.h"

namespace hw::plan {

inline WeekTable<double> every_shift(std::size_t shifts, double hours) {
  return WeekTable<double>(7, std::vector<double>(shifts, hours));
}

inline Task weekly_task(std::string id, EnergyState state = EnergyState::stopped) {
  Task task;
  task.id = std::move(id);
  task.state = state;
  task.crew = "fitters";
  task.labour_hours = 1;
  task.down_hours = state == EnergyState::running ? 0 : 0.5;
  task.own_cost = 40;
  task.late_tolerance_days = 1;
  task.late_cost_per_day = 5;
  task.age_days = 2;
  task.first_due_days = {4, 5, 5, 5, 6};
  task.cycle_days = {6, 7, 7, 7, 8};
  task.min_gap_days = 3;
  task.max_gap_days = 12;
  return task;
}

inline Machine machine_with(std::string id, std::vector<Task> tasks, std::size_t shifts = 1) {
  Machine machine;
  machine.id = std::move(id);
  machine.cell = "north";
  machine.loss_per_hour = every_shift(shifts, 20);
  machine.stop = {{10, 0.2}, {60, 0.5}};
  machine.tasks = std::move(tasks);
  return machine;
}

inline Instance instance_with(std::vector<Machine> machines, int days = 7, std::size_t shifts = 1) {
  Instance instance;
  instance.format = "hourwright-stops-1";
  instance.name = "tiny";
  instance.days = days;
  for (std::size_t i = 0; i < shifts; ++i) instance.shifts.push_back({"s", 6.0 + 8.0 * static_cast<double>(i), 8});
  Crew crew;
  crew.id = "fitters";
  crew.hours = every_shift(shifts, 2);
  crew.overtime_hours = every_shift(shifts, 1);
  crew.overtime_cost_per_hour = 30;
  crew.premium_per_hour = every_shift(shifts, 0);
  instance.crews = {crew};
  instance.cells = {{"north", WeekTable<int>(7, std::vector<int>(shifts, 2))}};
  instance.machines = std::move(machines);
  return instance;
}

inline Task chance_task(std::string id, numerics::Random& random) {
  Task task = weekly_task(std::move(id), static_cast<EnergyState>(random.whole_between(0, 2)));
  task.labour_hours = random.whole_between(1, 6) * 0.5;
  task.own_cost = random.between(10, 200);
  task.wear = random.between(1.5, 3.5);
  task.carry_over_cost = random.between(0, 30);
  task.age_days = random.whole_between(0, 6);
  for (double& due : task.first_due_days) due = random.between(1, 8);
  for (double& cycle : task.cycle_days) cycle = random.between(3, 9);
  task.min_gap_days = random.whole_between(2, 3);
  task.max_gap_days = random.whole_between(5, 20);
  task.first_earliest_day = random.whole_between(0, 2);
  if (random.chance(0.5)) task.first_latest_day.emplace(random.whole_between(3, 7));
  return task;
}

// One or two machines with three tasks together, six days of two shifts; crews and cells are scarce.
inline Instance chance_instance(std::uint64_t seed) {
  numerics::Random random(seed);
  std::vector<Task> first = {chance_task("a", random), chance_task("b", random)};
  std::vector<Task> second = {chance_task("c", random)};
  Machine left = machine_with("left", first, 2);
  Machine right = machine_with("right", second, 2);
  for (auto& row : left.loss_per_hour) row[1] = random.chance(0.5) ? 0 : 15;
  if (random.chance(0.3)) right.blackouts = {{2, 3}};
  Instance instance = instance_with({left, right}, 6, 2);
  for (auto& row : instance.crews[0].premium_per_hour) row[1] = random.between(0, 12);
  instance.crews[0].hours = every_shift(2, random.whole_between(1, 3));
  if (random.chance(0.5)) instance.cells[0].max_down = WeekTable<int>(7, {1, 1});
  return instance;
}

// The same with what real shops have beside that: agreed slots, closed days, absences.
inline Instance chance_shop(std::uint64_t seed) {
  Instance instance = chance_instance(seed);
  numerics::Random random(seed + 1000);
  if (random.chance(0.5)) instance.closed_days = {random.whole_between(0, 5)};
  instance.crews[0].absent = {{random.whole_between(0, 5), random.whole_between(0, 1), random.between(0.5, 3)}};
  for (Machine& machine : instance.machines) {
    for (Task& task : machine.tasks) {
      if (random.chance(0.4)) continue;
      AgreedSlot agreed{random.whole_between(task.first_earliest_day, 5), random.whole_between(0, 1), {}};
      if (random.chance(0.6)) agreed.move_cost.emplace(random.between(0, 60));
      task.agreed = agreed;
    }
  }
  return instance;
}

// The same with crews that travel: to one shop in which both machines stand, or to two; a second crew is of the shop.
inline Instance chance_travel(std::uint64_t seed) {
  Instance instance = chance_instance(seed);
  numerics::Random random(seed + 2000);
  const bool is_one_shop = random.chance(0.7);
  instance.machines[0].place = "east";
  instance.machines[1].place = is_one_shop ? "east" : "west";
  instance.crews.push_back(instance.crews[0]);
  instance.crews[1].id = "house";
  if (random.chance(0.4)) instance.machines[0].tasks[1].crew = "house";
  instance.crews[0].travel = {{"east", random.between(20, 120), random.whole_between(0, 2) * 0.5}};
  if (!is_one_shop) instance.crews[0].travel->push_back({"west", random.between(0, 60), 0.5});
  return instance;
}

}  // namespace hw::plan
