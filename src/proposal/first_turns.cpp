#include "src/proposal/first_turns.h"

#include <algorithm>

#include "src/plan/cycle_cost.h"

namespace hw::proposal {
namespace {

struct StopOf {
  const plan::Stop* stop = nullptr;
};

double at_slot(const plan::WeekTable<double>& table, PlantSlot slot) {
  return table[static_cast<std::size_t>(slot.day % 7)][static_cast<std::size_t>(slot.shift)];
}

const plan::SetUp& set_up_of(const plan::Machine& machine, plan::EnergyState state) {
  return state == plan::EnergyState::locked ? machine.stop.locked : machine.stop.stopped;
}

double premium_of(const plan::Instance& instance, const std::string& crew, PlantSlot slot) {
  for (const plan::Crew& one : instance.crews) {
    if (one.id == crew) return at_slot(one.premium_per_hour, slot);
  }
  return 0;
}

// The earliest stop of each task.
std::map<TaskName, StopOf> earliest_stops(const plan::StopPlan& plan) {
  std::map<TaskName, StopOf> earliest;
  for (const plan::Stop& stop : plan.stops) {
    for (const std::string& task : stop.tasks) {
      const plan::Stop*& there = earliest[{stop.machine, task}].stop;
      if (!there || stop.day < there->day) there = &stop;
    }
  }
  return earliest;
}

FirstTurn turn_in(const plan::Instance& instance, const plan::Machine& machine, const plan::Task& task,
                  const plan::Stop& stop) {
  const PlantSlot slot{stop.day, stop.shift};
  const double loss = at_slot(machine.loss_per_hour, slot);
  const plan::SetUp& set_up = set_up_of(machine, stop.state);
  const double opening = (set_up.cost + set_up.hours * loss) / static_cast<double>(stop.tasks.size());
  const double timing = plan::cycle_cost(task, task.age_days + stop.day, plan::first_lengths(task));
  const double premium = task.labour_hours * premium_of(instance, task.crew, slot);
  return {slot, timing + opening + premium + task.down_hours * loss};
}

}  // namespace

FirstTurns first_turns(const plan::Instance& instance, const plan::StopPlan& plan) {
  const auto earliest = earliest_stops(plan);
  FirstTurns turns;
  for (const plan::Machine& machine : instance.machines) {
    for (const plan::Task& task : machine.tasks) {
      if (task.state == plan::EnergyState::running) continue;
      const auto there = earliest.find({machine.id, task.id});
      const double open = plan::open_cycle_cost(task, task.age_days + instance.days, plan::first_lengths(task));
      turns[{machine.id, task.id}] =
          there == earliest.end() ? FirstTurn{{}, open} : turn_in(instance, machine, task, *there->second.stop);
    }
  }
  return turns;
}

double standing_hours(const plan::Instance& instance, const plan::StopPlan& plan) {
  double hours = 0;
  for (const plan::Stop& stop : plan.stops) {
    for (const plan::Machine& machine : instance.machines) {
      if (machine.id != stop.machine) continue;
      hours += set_up_of(machine, stop.state).hours;
      for (const plan::Task& task : machine.tasks) {
        if (std::find(stop.tasks.begin(), stop.tasks.end(), task.id) != stop.tasks.end()) hours += task.down_hours;
      }
    }
  }
  return hours;
}

}  // namespace hw::proposal
