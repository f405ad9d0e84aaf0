#include "src/proposal/outside_visits.h"

#include <algorithm>
#include <set>

namespace hw::proposal {
namespace {

using catalogue::Skill;

bool travels(const plan::Instance& instance, const std::string& crew) {
  return std::any_of(instance.crews.begin(), instance.crews.end(),
                     [&](const plan::Crew& one) { return one.id == crew && one.travel; });
}

std::set<std::string> tasks_of_travellers(const plan::Instance& instance, const std::string& machine) {
  std::set<std::string> tasks;
  for (const plan::Machine& one : instance.machines) {
    if (one.id != machine) continue;
    for (const plan::Task& task : one.tasks) {
      if (travels(instance, task.crew)) tasks.insert(task.id);
    }
  }
  return tasks;
}

}  // namespace

std::vector<plan::Travel> travel_of(const ShopAhead& shop, const PlantSlots& slots, Skill skill) {
  const auto& visit = shop.stopping.outside_visit;
  if (!visit || skill != Skill::outside_service || shop.machines.empty()) return {};
  double longest = 0;
  for (const plan::Shift& shift : slots.shifts()) longest = std::max(longest, shift.hours);
  return {{plant_place, visit->cost, std::min(visit->hours, longest)}};
}

double way_hours(const ShopAhead& shop) { return shop.stopping.outside_visit ? shop.stopping.outside_visit->hours : 0; }

bool needs_visit(const AgreedStop& stop) {
  return std::any_of(stop.tasks.begin(), stop.tasks.end(),
                     [](const AgreedTask& task) { return task.skill == Skill::outside_service; });
}

std::vector<std::string> machines_visited_too(const plan::Instance& instance, const plan::StopPlan& plan,
                                              const std::string& machine, PlantSlot slot) {
  std::vector<std::string> visited;
  const auto visit = [&](const std::string& one, const std::string& task) {
    if (!tasks_of_travellers(instance, one).count(task)) return;
    if (std::find(visited.begin(), visited.end(), one) == visited.end()) visited.push_back(one);
  };
  for (const plan::Stop& stop : plan.stops) {
    if (PlantSlot{stop.day, stop.shift} != slot) continue;
    for (const std::string& task : stop.tasks) visit(stop.machine, task);
  }
  for (const plan::RunningJob& job : plan.running_jobs) {
    if (PlantSlot{job.day, job.shift} == slot) visit(job.machine, job.task);
  }
  return std::erase(visited, machine) > 0 ? visited : std::vector<std::string>();
}

}  // namespace hw::proposal
