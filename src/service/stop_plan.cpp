#include "src/service/stop_plan.h"

#include <algorithm>

#include "src/service/entry_making.h"
#include "src/service/stop_works.h"

namespace hw::service {
namespace {

using catalogue::EnergyState;

EnergyState state_needed(const PlannedTask& task) {
  return catalogue::parse_energy_state(task.energy).value_or(EnergyState::isolated);
}

EnergyState strictest(const std::vector<PlannedTask>& tasks) {
  EnergyState energy = EnergyState::powered_at_rest;
  for (const PlannedTask& task : tasks) energy = std::max(energy, state_needed(task));
  return energy;
}

Result<const catalogue::Shift*> shift_of(const catalogue::PlantCalendar& calendar, LocalDate on,
                                         const std::string& name) {
  const catalogue::Shift* found = nullptr;
  for (const catalogue::Shift& shift : calendar.shifts) {
    if (shift.name != name) continue;
    const auto& weekdays = shift.weekdays;
    const bool works = std::find(weekdays.begin(), weekdays.end(), iso_weekday(on)) != weekdays.end();
    if (!found || works) found = &shift;
    if (works) break;
  }
  if (found || (calendar.shifts.empty() && name.empty())) return found;
  return refuse(ErrorCode::bad_input, Saying{"no-shift", {{"shift", name.substr(0, 60)}}},
                "shift: the plant has no shift \"{}\"", name.substr(0, 60));
}

// A plant without shifts gives the whole day.
void take_hours(StopPlan& plan, const catalogue::PlantCalendar& calendar, const catalogue::Shift* shift) {
  if (!shift) {
    plan.begins_at = calendar.zone.begin_of(plan.on);
    plan.ends_at = calendar.zone.end_of(plan.on);
    return;
  }
  const LocalDate end_day = shift->ends_minute > shift->begins_minute ? plan.on : plan.on + 1;
  plan.begins_at = calendar.zone.at(plan.on, shift->begins_minute);
  plan.ends_at = calendar.zone.at(end_day, shift->ends_minute);
}

Error as_bad_task(Error error) {
  error.code = ErrorCode::bad_input;
  return error.at("tasks");
}

Result<const TaskRecord*> task_to_plan(const OpenMachine& machine, const std::string& key) {
  const auto record = find_task(machine, key);
  if (!record) return refuse(as_bad_task(record.error()));
  if (!(*record)->retired_at) return *record;
  const std::string& title = (*record)->task.title;
  return refuse(ErrorCode::bad_input, Saying{"task-retired", {{"title", title}}}, "tasks: \"{}\" was retired", title);
}

Result<void> check_is_free(const OpenMachine& machine, const WantedStop& wanted, const catalogue::Task& task) {
  for (const Stop& other : machine.stops) {
    if (other.id == wanted.stop || !has_task(other, task.key)) continue;
    const StopPlan& plan = other.plan;
    return refuse(ErrorCode::conflict,
                  Saying{"task-in-stop",
                         {{"title", task.title}, {"date", print(plan.on)}, {"shift", plan.shift}, {"stop", other.id}}},
                  "\"{}\" is in the stop of {} already, which is agreed ({})", task.title, print(plan.on), other.id);
  }
  return {};
}

}  // namespace

double set_up_minutes(const catalogue::Stopping& stopping, EnergyState energy) {
  if (energy == EnergyState::in_production) return 0;
  const double powered = stopping.powered_at_rest.hours * 60;
  return energy == EnergyState::powered_at_rest ? powered : std::max(powered, stopping.isolated.hours * 60);
}

PlannedTask planned(const catalogue::Task& task) {
  return {.task = task.key,
          .title = task.title,
          .assembly = task.assembly,
          .point = task.point,
          .work = std::string{word_of(task.work)},
          .skill = std::string{word_of(task.skill)},
          .energy = std::string{word_of(task.energy)},
          .minutes = task.minutes};
}

Result<StopPlan> plan_of_shift(const catalogue::PlantCalendar& calendar, LocalDate on, const std::string& name) {
  HW_TAKE(shift, shift_of(calendar, on, name));
  StopPlan plan{.on = on, .shift = name};
  take_hours(plan, calendar, shift);
  return plan;
}

Result<StopPlan> plan_of(const OpenShop& shop, const OpenMachine& machine, const WantedStop& wanted) {
  HW_TAKE(plan, plan_of_shift(shop.calendar(), wanted.on, wanted.shift));
  plan.note = wanted.note;
  for (const std::string& key : wanted.tasks) {
    HW_TAKE(record, task_to_plan(machine, key));
    HW_TRY(check_is_free(machine, wanted, record->task));
    plan.tasks.push_back(planned(record->task));
  }
  if (auto ordered = order_works(machine, plan.tasks); !ordered) return refuse(as_bad_task(ordered.error()));
  return std::move(plan);
}

Result<void> check_is_ahead(const OpenShop& shop, LocalDate on, Instant now) {
  const LocalDate today = shop.calendar().zone.date_of(now);
  if (on >= today) return {};
  return refuse(ErrorCode::bad_input, Saying{"stop-past", {{"date", print(on)}}},
                "on: {} is over; right is {} or later", print(on), print(today));
}

std::vector<PlannedTask> present_tasks(const OpenMachine& machine, const StopPlan& plan) {
  std::vector<PlannedTask> tasks;
  for (const PlannedTask& named : plan.tasks) {
    const auto record = find_task(machine, named.task);
    tasks.push_back(record && !(*record)->retired_at ? planned((*record)->task) : named);
  }
  return tasks;
}

std::string energy_of(const std::vector<PlannedTask>& tasks) { return std::string{word_of(strictest(tasks))}; }

double standing_minutes(const catalogue::Stopping& stopping, const std::vector<PlannedTask>& tasks) {
  double minutes = set_up_minutes(stopping, strictest(tasks));
  for (const PlannedTask& task : tasks) minutes += state_needed(task) == EnergyState::in_production ? 0 : task.minutes;
  return minutes;
}

}  // namespace hw::service
