#include "src/service/stop_works.h"

#include <algorithm>

#include "src/catalogue/kind_service.h"
#include "src/sequence/walking_order.h"
#include "src/service/entry_making.h"

namespace hw::service {
namespace {

using catalogue::EnergyState;

double place_of(const MachineRecord& record, const PlannedTask& task) {
  const auto& points = record.points;
  const auto is_its_own = [&](const auto& point) { return task.point && point.number == *task.point; };
  const auto is_its_assemblys = [&](const auto& point) { return point.assembly == task.assembly; };
  auto found = std::find_if(points.begin(), points.end(), is_its_own);
  if (found == points.end()) found = std::find_if(points.begin(), points.end(), is_its_assemblys);
  return found == points.end() ? sequence::operators_place(points) : sequence::place_of(*found);
}

bool is_done_alone(const PlannedTask& task, EnergyState state) {
  const auto work = catalogue::parse_work_type(task.work);
  return work && catalogue::is_done_alone(*work, state);
}

// The places in the list of those that have to be done before.
std::vector<int> works_before(const OpenMachine& machine, const std::vector<PlannedTask>& tasks,
                              const std::string& key) {
  std::vector<int> before;
  const auto record = find_task(machine, key);
  if (!record) return before;
  for (const std::string& other : (*record)->task.after) {
    const auto found = std::find_if(tasks.begin(), tasks.end(), [&](const auto& one) { return one.task == other; });
    if (found != tasks.end()) before.push_back(static_cast<int>(found - tasks.begin()));
  }
  return before;
}

}  // namespace

Result<OrderedWorks> order_works(const OpenMachine& machine, const std::vector<PlannedTask>& tasks) {
  OrderedWorks ordered;
  for (const PlannedTask& task : tasks) {
    const EnergyState state = catalogue::parse_energy_state(task.energy).value_or(EnergyState::isolated);
    ordered.works.push_back({.state = state,
                             .place = place_of(machine.record, task),
                             .minutes = task.minutes,
                             .after = works_before(machine, tasks, task.task),
                             .is_alone = is_done_alone(task, state)});
  }
  HW_TAKE(order, sequence::order_stop(ordered.works, sequence::operators_place(machine.record.points)));
  ordered.order = std::move(order);
  return ordered;
}

}  // namespace hw::service
