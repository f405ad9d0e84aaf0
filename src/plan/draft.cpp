#include "src/plan/draft.h"

#include <algorithm>

#include "libs/values/assert.h"

namespace hw::plan {

Draft::Draft(const Model& model) : model_(&model), day_price_(model.days), day_slot_(model.days) {
  for (const MachineModel& machine : model.machines) {
    slots_.emplace_back(machine.tasks.size());
    stops_.emplace_back(model.slots());
  }
  crew_hours_.assign(model.crews.size(), std::vector<double>(model.slots()));
  for (const CrewModel& crew : model.crews) crew_limit_.push_back(crew.hours_max);
  cell_down_.assign(model.cell_max_down.size(), std::vector<int>(model.slots()));
  executions_.assign(model.visits.size(), std::vector<int>(model.slots()));
  recount();
}

std::vector<TaskAt> Draft::tasks_without_place() const {
  std::vector<TaskAt> without;
  for (std::size_t m = 0; m < slots_.size(); ++m) {
    for (std::size_t t = 0; t < slots_[m].size(); ++t) {
      const TaskAt at{static_cast<int>(m), static_cast<int>(t)};
      if (slots_[m][t].empty() && !is_allowed(task(at).never_cost)) without.push_back(at);
    }
  }
  return without;
}

double Draft::timing(TaskAt at) const {
  const Slots& slots = slots_of(at);
  const TaskModel& what = task(at);
  if (slots.empty()) return is_allowed(what.never_cost) ? what.never_cost : price_of_no_place;
  const auto day = [&](int slot) { return model_->day_of(index(slot)); };
  double cost =
      what.first_cost[day(slots.front())] + what.shift_cost(slots.front()) + what.last_cost[day(slots.back())];
  for (std::size_t i = 1; i < slots.size(); ++i) cost += what.gap_cost[day(slots[i]) - day(slots[i - 1])];
  return cost;
}

// With the crew's travel, where nothing else brings it there in that slot.
double Draft::labour_price(const TaskModel& what, std::size_t slot, double opening_factor) const {
  const CrewModel& crew = model_->crews[index(what.crew)];
  const double used = crew_hours_[index(what.crew)][slot];
  double hours = what.labour_hours;
  double travel = 0;
  if (what.visit >= 0 && executions_[index(what.visit)][slot] == 0) {
    const VisitModel& visit = model_->visits[index(what.visit)];
    hours += visit.hours;
    travel = model_->visit_cost(visit, slot) * opening_factor;
  }
  if (hours > 0 && used + hours > crew_limit_[index(what.crew)][slot] + hours_tolerance) return forbidden;
  return what.labour_hours * crew.premium_per_hour[slot] + travel + crew.overtime_cost(slot, used + hours) -
         crew.overtime_cost(slot, used);
}

// What the stop of that machine in that slot costs more with the task in it.
double Draft::stop_price(const MachineModel& machine, const TaskModel& what, const StopUse& use, std::size_t slot,
                         double opening_factor) const {
  if (what.state == EnergyState::running) return machine.loss_per_hour[slot] > 0 ? 0 : forbidden;
  if (!machine.may_stop[slot]) return forbidden;
  const EnergyState state = use.is_open() ? std::max(use.state(), what.state) : what.state;
  if (!use.is_open()) {
    const auto cell = index(machine.cell);
    if (cell_down_[cell][slot] >= model_->cell_max_down[cell][slot]) return forbidden;
  }
  const double hours = machine.set_up(state).hours + use.down_hours + what.down_hours;
  if (hours > model_->shift_hours[slot] + hours_tolerance) return forbidden;
  double opening = 0;
  if (!use.is_open()) {
    opening = machine.opening_cost(state, slot);
  } else if (state != use.state()) {
    opening = machine.opening_cost(state, slot) - machine.opening_cost(use.state(), slot);
  }
  return what.down_hours * machine.loss_per_hour[slot] + opening * opening_factor;
}

double Draft::price(TaskAt at, int slot) const {
  const TaskModel& what = task(at);
  const auto s = index(slot);
  const double stop = stop_price(model_->machines[index(at.machine)], what, stops_[index(at.machine)][s], s, 1);
  return is_allowed(stop) ? stop + labour_price(what, s, 1) : forbidden;
}

// What the stop in a slot costs by its set-up; the tasks' own hours are counted with them.
double Draft::slot_cost(int machine, int slot) const {
  const StopUse& use = stop(machine, slot);
  return use.is_open() ? model_->machines[index(machine)].opening_cost(use.state(), index(slot)) : 0;
}

// One more execution of the visit; gives back what that costs, the hours' overtime apart.
double Draft::travel_to(int visit, int slot) {
  if (visit < 0 || executions_[index(visit)][index(slot)]++ > 0) return 0;
  const VisitModel& what = model_->visits[index(visit)];
  crew_hours_[index(what.crew)][index(slot)] += what.hours;
  return model_->visit_cost(what, index(slot));
}

double Draft::travel_no_more_to(int visit, int slot) {
  if (visit < 0 || --executions_[index(visit)][index(slot)] > 0) return 0;
  const VisitModel& what = model_->visits[index(visit)];
  crew_hours_[index(what.crew)][index(slot)] -= what.hours;
  return model_->visit_cost(what, index(slot));
}

void Draft::enter(TaskAt at, int slot) {
  const TaskModel& what = task(at);
  const MachineModel& machine = model_->machines[index(at.machine)];
  const CrewModel& crew = model_->crews[index(what.crew)];
  double& used = crew_hours_[index(what.crew)][index(slot)];
  cost_ -= crew.overtime_cost(index(slot), used) + slot_cost(at.machine, slot);
  used += what.labour_hours;
  cost_ += travel_to(what.visit, slot);
  if (what.state != EnergyState::running) {
    StopUse& use = stops_[index(at.machine)][index(slot)];
    if (!use.is_open()) ++cell_down_[index(machine.cell)][index(slot)];
    ++(what.state == EnergyState::locked ? use.locked : use.stopped);
    use.down_hours += what.down_hours;
  }
  cost_ += crew.overtime_cost(index(slot), used) + slot_cost(at.machine, slot);
  cost_ += what.labour_hours * crew.premium_per_hour[index(slot)];
  cost_ += what.down_hours * machine.loss_per_hour[index(slot)] * (what.state == EnergyState::running ? 0 : 1);
}

void Draft::leave(TaskAt at, int slot) {
  const TaskModel& what = task(at);
  const MachineModel& machine = model_->machines[index(at.machine)];
  const CrewModel& crew = model_->crews[index(what.crew)];
  double& used = crew_hours_[index(what.crew)][index(slot)];
  cost_ -= crew.overtime_cost(index(slot), used) + slot_cost(at.machine, slot);
  cost_ -= what.labour_hours * crew.premium_per_hour[index(slot)];
  cost_ -= what.down_hours * machine.loss_per_hour[index(slot)] * (what.state == EnergyState::running ? 0 : 1);
  used -= what.labour_hours;
  cost_ -= travel_no_more_to(what.visit, slot);
  if (what.state != EnergyState::running) {
    StopUse& use = stops_[index(at.machine)][index(slot)];
    --(what.state == EnergyState::locked ? use.locked : use.stopped);
    use.down_hours -= what.down_hours;
    if (!use.is_open()) {
      use.down_hours = 0;
      --cell_down_[index(machine.cell)][index(slot)];
    }
  }
  cost_ += crew.overtime_cost(index(slot), used) + slot_cost(at.machine, slot);
}

void Draft::take(TaskAt at) {
  Slots& slots = slots_[index(at.machine)][index(at.task)];
  cost_ -= timing(at);
  for (const int slot : slots) leave(at, slot);
  slots.clear();
  cost_ += timing(at);
}

void Draft::put(TaskAt at, const Slots& slots) {
  Slots& mine = slots_[index(at.machine)][index(at.task)];
  HW_ASSERT(mine.empty(), "a task is taken out before it is put anew");
  cost_ -= timing(at);
  mine = slots;
  for (const int slot : mine) enter(at, slot);
  cost_ += timing(at);
}

void Draft::put_all(const Choice& choice) {
  for (std::size_t m = 0; m < choice.size(); ++m) {
    for (std::size_t t = 0; t < choice[m].size(); ++t) {
      take({static_cast<int>(m), static_cast<int>(t)});
    }
  }
  for (std::size_t m = 0; m < choice.size(); ++m) {
    for (std::size_t t = 0; t < choice[m].size(); ++t) {
      put({static_cast<int>(m), static_cast<int>(t)}, choice[m][t]);
    }
  }
  recount();
}

void Draft::adopt(int machine, const std::vector<Slots>& tasks) {
  for (std::size_t t = 0; t < tasks.size(); ++t) {
    const TaskAt at{machine, static_cast<int>(t)};
    if (slots_of(at) == tasks[t]) continue;
    take(at);
    put(at, tasks[t]);
  }
}

void Draft::limit_crew(int crew, int slot, double free_hours) {
  crew_limit_[index(crew)][index(slot)] = hours_used(crew, slot) + std::max(0.0, free_hours);
}

void Draft::recount() {
  const Choice choice = slots_;
  for (std::vector<double>& hours : crew_hours_) std::fill(hours.begin(), hours.end(), 0);
  for (std::vector<int>& down : cell_down_) std::fill(down.begin(), down.end(), 0);
  for (std::vector<int>& executions : executions_) std::fill(executions.begin(), executions.end(), 0);
  for (std::vector<StopUse>& stops : stops_) std::fill(stops.begin(), stops.end(), StopUse{});
  cost_ = 0;
  for (std::size_t m = 0; m < choice.size(); ++m) {
    for (std::size_t t = 0; t < choice[m].size(); ++t) {
      const TaskAt at{static_cast<int>(m), static_cast<int>(t)};
      for (const int slot : choice[m][t]) enter(at, slot);
      cost_ += timing(at);
    }
  }
}

}  // namespace hw::plan
