#include "src/plan/model.h"

#include <algorithm>
#include <string_view>
#include <unordered_map>

#include "src/plan/cycle_cost.h"

namespace hw::plan {
namespace {

using Places = std::unordered_map<std::string_view, int>;

template <class Named>
Places places_of(const std::vector<Named>& all) {
  Places places;
  for (const Named& one : all) places.emplace(one.id, static_cast<int>(places.size()));
  return places;
}

template <class Number>
std::vector<Number> by_slot(const Model& model, const WeekTable<Number>& week) {
  std::vector<Number> slots;
  slots.reserve(model.slots());
  for (std::size_t shift = 0; shift < model.shifts; ++shift) {
    for (std::size_t day = 0; day < model.days; ++day) slots.push_back(week[day % 7][shift]);
  }
  return slots;
}

void take_days_off(const Model& model, const std::vector<int>& days_off, std::vector<double>& hours) {
  for (const int day : days_off) {
    if (static_cast<std::size_t>(day) >= model.days) continue;
    for (std::size_t shift = 0; shift < model.shifts; ++shift) {
      hours[shift * model.days + static_cast<std::size_t>(day)] = 0;
    }
  }
}

CrewModel crew_model(const Model& model, const Crew& crew) {
  CrewModel made;
  made.hours = by_slot(model, crew.hours);
  made.hours_max = by_slot(model, crew.overtime_hours);
  for (std::size_t slot = 0; slot < model.slots(); ++slot) made.hours_max[slot] += made.hours[slot];
  take_days_off(model, crew.days_off, made.hours);
  take_days_off(model, crew.days_off, made.hours_max);
  made.premium_per_hour = by_slot(model, crew.premium_per_hour);
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
  fill_gaps(task, days, made);
  return made;
}

std::vector<char> days_to_stop(const Model& model, const Machine& machine) {
  std::vector<char> may_stop(model.slots(), 1);
  for (const auto& [first, last] : machine.blackouts) {
    for (std::size_t slot = 0; slot < may_stop.size(); ++slot) {
      const int day = static_cast<int>(model.day_of(slot));
      if (first <= day && day <= last) may_stop[slot] = 0;
    }
  }
  return may_stop;
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

Model build_model(const Instance& instance) {
  Model model;
  model.days = static_cast<std::size_t>(instance.days);
  model.shifts = instance.shifts.size();
  for (const Shift& shift : instance.shifts) model.shift_hours.insert(model.shift_hours.end(), model.days, shift.hours);
  for (const Crew& crew : instance.crews) model.crews.push_back(crew_model(model, crew));
  for (const Cell& cell : instance.cells) model.cell_max_down.push_back(by_slot(model, cell.max_down));
  const Places crews = places_of(instance.crews);
  const Places cells = places_of(instance.cells);
  model.machines.reserve(instance.machines.size());
  for (const Machine& machine : instance.machines) {
    MachineModel& made = model.machines.emplace_back();
    made.cell = cells.at(machine.cell);
    made.stopped = machine.stop.stopped;
    made.locked = machine.stop.locked;
    made.loss_per_hour = by_slot(model, machine.loss_per_hour);
    made.may_stop = days_to_stop(model, machine);
    for (const Task& task : machine.tasks) made.tasks.push_back(task_model(task, instance.days, crews));
  }
  return model;
}

}  // namespace hw::plan
