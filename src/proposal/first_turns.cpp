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

// How many tasks share a visit: all that a crew that travels does in that slot. A plant is one place.
using Sharers = std::map<std::pair<std::string, PlantSlot>, int>;

Sharers sharers_of(const plan::Instance& instance, const plan::StopPlan& plan) {
  std::map<TaskName, std::string> crews;
  for (const plan::Machine& machine : instance.machines) {
    for (const plan::Task& task : machine.tasks) crews[{machine.id, task.id}] = task.crew;
  }
  Sharers sharers;
  for (const plan::Stop& stop : plan.stops) {
    for (const std::string& task : stop.tasks) ++sharers[{crews[{stop.machine, task}], {stop.day, stop.shift}}];
  }
  for (const plan::RunningJob& job : plan.running_jobs) {
    ++sharers[{crews[{job.machine, job.task}], {job.day, job.shift}}];
  }
  return sharers;
}

double visit_share(const plan::Instance& instance, const plan::Task& task, PlantSlot slot, const Sharers& sharers) {
  for (const plan::Crew& crew : instance.crews) {
    if (crew.id != task.crew || !crew.travel) continue;
    const plan::Travel& way = crew.travel->front();
    const double cost = way.cost + way.hours * at_slot(crew.premium_per_hour, slot);
    return cost / std::max(1, sharers.at({crew.id, slot}));
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
                  const plan::Stop& stop, const Sharers& sharers) {
  const PlantSlot slot{stop.day, stop.shift};
  const double loss = at_slot(machine.loss_per_hour, slot);
  const plan::SetUp& set_up = set_up_of(machine, stop.state);
  const double opening = (set_up.cost + set_up.hours * loss) / static_cast<double>(stop.tasks.size());
  const double timing = plan::cycle_cost(task, task.age_days + stop.day, plan::first_lengths(task));
  const double premium = task.labour_hours * premium_of(instance, task.crew, slot);
  const double visit = visit_share(instance, task, slot, sharers);
  return {slot, timing + opening + premium + visit + task.down_hours * loss};
}

}  // namespace

FirstTurns first_turns(const plan::Instance& instance, const plan::StopPlan& plan) {
  const auto earliest = earliest_stops(plan);
  const Sharers sharers = sharers_of(instance, plan);
  FirstTurns turns;
  for (const plan::Machine& machine : instance.machines) {
    for (const plan::Task& task : machine.tasks) {
      if (task.state == plan::EnergyState::running) continue;
      const auto there = earliest.find({machine.id, task.id});
      const double open = plan::open_cycle_cost(task, task.age_days + instance.days, plan::first_lengths(task));
      turns[{machine.id, task.id}] = there == earliest.end()
                                         ? FirstTurn{{}, open}
                                         : turn_in(instance, machine, task, *there->second.stop, sharers);
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
