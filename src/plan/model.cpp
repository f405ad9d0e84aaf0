#include "src/plan/model.h"

#include <algorithm>
#include <map>
#include <string_view>
#include <unordered_map>

#include "src/plan/cycle_cost.h"
#include "src/plan/slot_calendar.h"

namespace hw::plan {
namespace {

using Places = std::unordered_map<std::string_view, int>;

template <class Named>
Places places_of(const std::vector<Named>& all) {
  Places places;
  for (const Named& one : all) places.emplace(one.id, static_cast<int>(places.size()));
  return places;
}

// What `of_slot` says of each slot, in the order of their indices.
template <class OfSlot>
auto by_slot(const Model& model, const OfSlot& of_slot) {
  std::vector<decltype(of_slot(DayShift{}))> slots;
  slots.reserve(model.slots());
  for (int shift = 0; shift < static_cast<int>(model.shifts); ++shift) {
    for (int day = 0; day < static_cast<int>(model.days); ++day) slots.push_back(of_slot(DayShift{day, shift}));
  }
  return slots;
}

CrewModel crew_model(const Instance& instance, const Model& model, const Crew& crew) {
  CrewModel made;
  for (const CrewHours& there : by_slot(model, [&](DayShift slot) { return crew_hours(instance, crew, slot); })) {
    made.hours.push_back(there.offered);
    made.hours_max.push_back(there.offered + there.overtime);
  }
  made.premium_per_hour = by_slot(model, [&](DayShift slot) { return of_week(crew.premium_per_hour, slot); });
  made.overtime_cost_per_hour = crew.overtime_cost_per_hour;
  return made;
}

void fill_first(const Task& task, int days, TaskModel& made) {
  const Fifths lengths = first_lengths(task);
  const int latest = task.first_latest_day.value_or(days);
  made.first_cost.assign(static_cast<std::size_t>(days), forbidden);
  for (int day = std::max(0, task.first_earliest_day); day < days && day <= latest; ++day) {
    made.first_cost[static_cast<std::size_t>(day)] = cycle_cost(task, task.age_days + day, lengths);
  }
  made.never_cost = latest < days ? forbidden : open_cycle_cost(task, task.age_days + days, lengths);
}

// Whoever begins on another day, or not at all, moves.
void fill_agreed(const AgreedSlot& agreed, int days, TaskModel& made) {
  made.agreed_slot = agreed.shift * days + agreed.day;
  made.move_cost = agreed.move_cost.value_or(forbidden);
  for (int day = 0; day < days; ++day) {
    if (day != agreed.day) made.first_cost[static_cast<std::size_t>(day)] += made.move_cost;
  }
  made.never_cost += made.move_cost;
}

void fill_gaps(const Task& task, int days, TaskModel& made) {
  made.gap_min = std::max(1, task.min_gap_days);
  for (int gap = 0; gap <= std::min(task.max_gap_days, days - 1); ++gap) {
    made.gap_cost.push_back(cycle_cost(task, gap, task.cycle_days));
  }
  for (int day = 0; day < days; ++day) {
    const bool is_enough = day + task.max_gap_days >= days;
    made.last_cost.push_back(is_enough ? open_cycle_cost(task, days - day, task.cycle_days) : forbidden);
  }
}

TaskModel task_model(const Task& task, int days, const Places& crews) {
  TaskModel made;
  made.crew = crews.at(task.crew);
  made.state = task.state;
  made.labour_hours = task.labour_hours;
  made.down_hours = task.down_hours;
  fill_first(task, days, made);
  if (task.agreed) fill_agreed(*task.agreed, days, made);
  fill_gaps(task, days, made);
  return made;
}

MachineModel machine_model(const Instance& instance, const Model& model, const Machine& machine) {
  MachineModel made;
  made.stopped = machine.stop.stopped;
  made.locked = machine.stop.locked;
  made.loss_per_hour = by_slot(model, [&](DayShift slot) { return loss_per_hour(instance, machine, slot); });
  made.may_stop = by_slot(model, [&](DayShift slot) -> char { return may_stop(machine, slot.day) ? 1 : 0; });
  return made;
}

// Of each crew and place that it travels to, the visit.
using VisitPlaces = std::map<std::pair<std::string_view, std::string_view>, int>;

VisitPlaces add_visits(const Instance& instance, Model& model) {
  VisitPlaces places;
  for (std::size_t c = 0; c < instance.crews.size(); ++c) {
    const Crew& crew = instance.crews[c];
    if (!crew.travel) continue;
    for (const Travel& travel : *crew.travel) {
      const std::pair<std::string_view, std::string_view> way(crew.id, travel.place);
      places.emplace(way, static_cast<int>(model.visits.size()));
      model.visits.push_back({static_cast<int>(c), travel.cost, travel.hours});
    }
  }
  return places;
}

int visit_of(const VisitPlaces& visits, const Machine& machine, const Task& task) {
  if (!machine.place) return -1;
  const auto there = visits.find({task.crew, *machine.place});
  return there == visits.end() ? -1 : there->second;
}

}  // namespace

RouteTable<double> TaskModel::table() const {
  return {.days = static_cast<int>(first_cost.size()),
          .gap_min = gap_min,
          .gap_max = static_cast<int>(gap_cost.size()) - 1,
          .first = first_cost.data(),
          .gap = gap_cost.data(),
          .last = last_cost.data(),
          .never = never_cost};
}

double TaskModel::shift_cost(int slot) const {
  const int days = static_cast<int>(first_cost.size());
  return agreed_slot >= 0 && slot != agreed_slot && slot % days == agreed_slot % days ? move_cost : 0;
}

Model build_model(const Instance& instance) {
  Model model;
  model.days = static_cast<std::size_t>(instance.days);
  model.shifts = instance.shifts.size();
  for (const Shift& shift : instance.shifts) model.shift_hours.insert(model.shift_hours.end(), model.days, shift.hours);
  for (const Crew& crew : instance.crews) model.crews.push_back(crew_model(instance, model, crew));
  for (const Cell& cell : instance.cells) {
    model.cell_max_down.push_back(by_slot(model, [&](DayShift slot) { return of_week(cell.max_down, slot); }));
  }
  const Places crews = places_of(instance.crews);
  const Places cells = places_of(instance.cells);
  const VisitPlaces visits = add_visits(instance, model);
  model.machines.reserve(instance.machines.size());
  for (const Machine& machine : instance.machines) {
    MachineModel& made = model.machines.emplace_back(machine_model(instance, model, machine));
    made.cell = cells.at(machine.cell);
    for (const Task& task : machine.tasks) {
      made.tasks.push_back(task_model(task, instance.days, crews));
      made.tasks.back().visit = visit_of(visits, machine, task);
    }
  }
  return model;
}

}  // namespace hw::plan
