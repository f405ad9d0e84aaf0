#pragma once
// The next execution of each task in a plan: when it is, in whose company, and what it costs.
//
// People agree on next executions alone; what comes after them is an outlook. What a task's next execution costs is its
// standing and premium, its cycle ended early or late, and an equal share of what opening the stop costs, and of its
// crew's visit where that travels; of one that
// is not done within the plan, what its open cycle costs. Overtime is left out: it belongs to nobody alone.

#include <map>
#include <optional>
#include <string>

#include "src/plan/stop_plan.h"
#include "src/proposal/plant_slots.h"

namespace hw::proposal {

struct TaskName {
  std::string machine;
  std::string task;
  auto operator<=>(const TaskName&) const = default;
};

struct FirstTurn {
  std::optional<PlantSlot> slot;  // nothing: not within the plan
  double cost = 0;
};

// Of the tasks that need the machine at rest.
using FirstTurns = std::map<TaskName, FirstTurn>;

FirstTurns first_turns(const plan::Instance& instance, const plan::StopPlan& plan);

// Hours that machines stand in the plan's stops.
double standing_hours(const plan::Instance& instance, const plan::StopPlan& plan);

}  // namespace hw::proposal
