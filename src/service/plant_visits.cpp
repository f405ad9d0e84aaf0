#include "src/service/plant_visits.h"

#include <algorithm>

#include "src/service/stop_plan.h"

namespace hw::service {
namespace {

double outside_hours(const OpenMachine& machine, const Stop& stop) {
  double minutes = 0;
  for (const PlannedTask& task : present_tasks(machine, stop.plan)) {
    if (task.skill == word_of(catalogue::Skill::outside_service)) minutes += task.minutes;
  }
  return minutes / 60;
}

GroupVisitView visit_with(const Stop& stop, const catalogue::Stopping& stopping) {
  GroupVisitView visit;
  visit.on = stop.plan.on;
  visit.shift = stop.plan.shift;
  visit.begins_at = stop.plan.begins_at;
  visit.ends_at = stop.plan.ends_at;
  visit.currency = stopping.currency;
  if (stopping.outside_visit) {
    visit.way_h = stopping.outside_visit->hours;
    visit.way_cost = stopping.outside_visit->cost;
  }
  return visit;
}

}  // namespace

std::vector<GroupVisitView> outside_visits(const OpenShop& shop, Instant now) {
  const auto looking = shop.look();
  std::vector<GroupVisitView> visits;
  for (const auto& machine : shop.machines()) {
    for (const Stop& stop : machine->stops) {
      const double hours = outside_hours(*machine, stop);
      if (hours <= 0 || stop.plan.ends_at <= now) continue;
      auto there = std::find_if(visits.begin(), visits.end(), [&](const GroupVisitView& one) {
        return one.on == stop.plan.on && one.shift == stop.plan.shift;
      });
      if (there == visits.end()) there = visits.insert(there, visit_with(stop, shop.record().stopping));
      there->stops.push_back({stop.id, machine->record.machine.name});
      there->work_h += hours;
    }
  }
  std::stable_sort(visits.begin(), visits.end(),
                   [](const auto& one, const auto& other) { return one.begins_at < other.begins_at; });
  return visits;
}

}  // namespace hw::service
