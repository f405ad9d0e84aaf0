#include "src/plan/draft_plan.h"

#include <map>

namespace hw::plan {
namespace {

// Stops of one machine, by day and shift.
using StopsBySlot = std::map<std::pair<int, int>, Stop>;

void add_execution(const Machine& machine, const Task& task, std::pair<int, int> slot, StopsBySlot& stops,
                   StopPlan& plan) {
  const auto& [day, shift] = slot;
  if (task.state == EnergyState::running) {
    plan.running_jobs.push_back({machine.id, day, shift, task.id});
    return;
  }
  Stop& stop = stops.try_emplace(slot, Stop{machine.id, day, shift, EnergyState::stopped, {}}).first->second;
  stop.state = std::max(stop.state, task.state);
  stop.tasks.push_back(task.id);
}

}  // namespace

StopPlan plan_of(const Instance& instance, const Draft& draft) {
  StopPlan plan;
  plan.instance = instance.name;
  for (std::size_t m = 0; m < instance.machines.size(); ++m) {
    const Machine& machine = instance.machines[m];
    StopsBySlot stops;
    for (std::size_t t = 0; t < machine.tasks.size(); ++t) {
      for (const int slot : draft.choice()[m][t]) {
        add_execution(machine, machine.tasks[t], {slot % instance.days, slot / instance.days}, stops, plan);
      }
    }
    for (auto& [slot, stop] : stops) plan.stops.push_back(std::move(stop));
  }
  return plan;
}

}  // namespace hw::plan
