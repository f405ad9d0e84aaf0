#include <algorithm>
#include <map>
#include <set>
#include <tuple>

#include "src/plan/cycle_cost.h"
#include "src/plan/stop_plan.h"

namespace hw::plan {
namespace {

struct SlotName {
  int day = 0;
  int shift = 0;
  auto operator<=>(const SlotName&) const = default;
};

// What is known of one task while the plan is gone through.
struct TaskAccount {
  const Machine* machine = nullptr;
  const Task* task = nullptr;
  std::vector<SlotName> done;
};

class Evaluation {
 public:
  Evaluation(const Instance& instance, const StopPlan& plan) : instance_(instance) {
    for (const Crew& crew : instance.crews) {
      crews_[crew.id] = &crew;
      if (crew.travel) verdict_.cost.travel = 0;
    }
    for (const Cell& cell : instance.cells) cells_[cell.id] = &cell;
    for (const Machine& machine : instance.machines) {
      machines_[machine.id] = &machine;
      for (const Task& task : machine.tasks) {
        tasks_[{machine.id, task.id}] = {&machine, &task, {}};
        if (task.agreed) verdict_.cost.moving = 0;
      }
    }
    if (plan.instance != instance.name) say("the plan is for \"{}\", not for \"{}\"", plan.instance, instance.name);
    for (const Stop& stop : plan.stops) count_stop(stop);
    for (const RunningJob& job : plan.running_jobs) count_job(job);
    count_crews();
    count_cells();
    for (auto& [name, account] : tasks_) count_task(account);
  }

  PlanVerdict verdict() && { return std::move(verdict_); }

 private:
  template <class... Args>
  void say(fmt::format_string<Args...> form, Args&&... args) {
    verdict_.problems.push_back(fmt::format(form, std::forward<Args>(args)...));
  }

  bool is_slot(SlotName slot) const {
    return slot.day >= 0 && slot.day < instance_.days && slot.shift >= 0 &&
           static_cast<std::size_t>(slot.shift) < instance_.shifts.size();
  }

  template <class Number>
  static Number at(const WeekTable<Number>& table, SlotName slot) {
    return table[static_cast<std::size_t>(slot.day % 7)][static_cast<std::size_t>(slot.shift)];
  }

  bool is_closed(int day) const {
    const auto& closed = instance_.closed_days;
    return closed && std::find(closed->begin(), closed->end(), day) != closed->end();
  }

  double loss_per_hour(const Machine& machine, SlotName slot) const {
    return is_closed(slot.day) ? 0 : at(machine.loss_per_hour, slot);
  }

  static double absent_hours(const Crew& crew, SlotName slot) {
    double sum = 0;
    if (!crew.absent) return sum;
    for (const Absence& absence : *crew.absent) {
      if (SlotName{absence.day, absence.shift} == slot) sum += absence.hours;
    }
    return sum;
  }

  const Machine* machine_in(const std::string& id, SlotName slot) {
    const auto there = machines_.find(id);
    if (there == machines_.end()) {
      say("there is no machine {}", id);
    } else if (!is_slot(slot)) {
      say("{}: day {} shift {} is outside the horizon", id, slot.day, slot.shift);
    } else {
      return there->second;
    }
    return nullptr;
  }

  const Task* execute(const Machine& machine, const std::string& id, SlotName slot) {
    const auto there = tasks_.find({machine.id, id});
    if (there == tasks_.end()) {
      say("{} has no task {}", machine.id, id);
      return nullptr;
    }
    const Task& task = *there->second.task;
    there->second.done.push_back(slot);
    crew_hours_[{task.crew, slot}] += task.labour_hours;
    verdict_.cost.labour_premium += task.labour_hours * at(crews_.at(task.crew)->premium_per_hour, slot);
    visit(*crews_.at(task.crew), machine, slot);
    return &task;
  }

  // The crew comes to the machine's place, once in a slot.
  void visit(const Crew& crew, const Machine& machine, SlotName slot) {
    if (!crew.travel || !machine.place) return;
    for (const Travel& travel : *crew.travel) {
      if (travel.place != *machine.place || !visits_.insert({crew.id, travel.place, slot}).second) continue;
      *verdict_.cost.travel += travel.cost;
      verdict_.cost.labour_premium += travel.hours * at(crew.premium_per_hour, slot);
      crew_hours_[{crew.id, slot}] += travel.hours;
    }
  }

  void count_stop(const Stop& stop) {
    const SlotName slot{stop.day, stop.shift};
    const Machine* machine = machine_in(stop.machine, slot);
    if (machine == nullptr) return;
    check_stop(stop, *machine);
    const SetUp& set_up = stop.state == EnergyState::locked ? machine->stop.locked : machine->stop.stopped;
    double hours = set_up.hours;
    for (const std::string& id : stop.tasks) {
      const Task* task = execute(*machine, id, slot);
      if (task == nullptr) continue;
      hours += task->down_hours;
      check_state(stop, *task);
    }
    const double room = instance_.shifts[static_cast<std::size_t>(stop.shift)].hours;
    if (hours > room + 1e-6) say("{}: its stop on day {} takes {} h of {}", stop.machine, stop.day, hours, room);
    verdict_.cost.stops += set_up.cost;
    verdict_.cost.lost_production += hours * loss_per_hour(*machine, slot);
    ++down_[{machine->cell, slot}];
  }

  void check_stop(const Stop& stop, const Machine& machine) {
    if (!stops_.insert({stop.machine, {stop.day, stop.shift}}).second) {
      say("{} has two stops on day {} shift {}", stop.machine, stop.day, stop.shift);
    }
    if (stop.state == EnergyState::running) say("{}: a stop is stopped or locked", stop.machine);
    for (const auto& [first, last] : machine.blackouts) {
      if (first <= stop.day && stop.day <= last) say("{} must not be stopped on day {}", stop.machine, stop.day);
    }
  }

  void check_state(const Stop& stop, const Task& task) {
    if (task.state == EnergyState::running) say("{} {} needs the machine running", stop.machine, task.id);
    if (task.state > stop.state) say("{} {} needs the machine locked out", stop.machine, task.id);
  }

  void count_job(const RunningJob& job) {
    const SlotName slot{job.day, job.shift};
    const Machine* machine = machine_in(job.machine, slot);
    if (machine == nullptr) return;
    const Task* task = execute(*machine, job.task, slot);
    if (task == nullptr) return;
    if (task->state != EnergyState::running) say("{} {} needs a stop", job.machine, job.task);
    if (loss_per_hour(*machine, slot) > 0) return;
    say("{} is not in production on day {} shift {}, as {} needs", job.machine, job.day, job.shift, job.task);
  }

  void count_crews() {
    for (const auto& [key, used] : crew_hours_) {
      const auto& [id, slot] = key;
      const Crew& crew = *crews_.at(id);
      const bool is_off =
          is_closed(slot.day) || std::find(crew.days_off.begin(), crew.days_off.end(), slot.day) != crew.days_off.end();
      const double hours = is_off ? 0 : std::max(0.0, at(crew.hours, slot) - absent_hours(crew, slot));
      const double more = is_off ? 0 : at(crew.overtime_hours, slot);
      if (used > hours + more + 1e-6) {
        say("crew {} has {} h on day {} shift {}, and {} overtime, but would need {}", id, hours, slot.day, slot.shift,
            more, used);
      }
      verdict_.cost.overtime += std::max(0.0, used - hours) * crew.overtime_cost_per_hour;
    }
  }

  void count_cells() {
    for (const auto& [key, count] : down_) {
      const auto& [id, slot] = key;
      const int max = at(cells_.at(id)->max_down, slot);
      if (count <= max) continue;
      say("cell {} may have {} machines down on day {} shift {}, not {}", id, max, slot.day, slot.shift, count);
    }
  }

  void count_task(TaskAccount& account) {
    const Task& task = *account.task;
    std::sort(account.done.begin(), account.done.end());
    count_agreed(account);
    if (account.done.empty()) return count_never(account);
    count_first(account);
    for (std::size_t i = 1; i < account.done.size(); ++i) {
      const int gap = account.done[i].day - account.done[i - 1].day;
      if (gap < task.min_gap_days || gap > task.max_gap_days) {
        say("{} {}: {} days between executions, allowed are {} to {}", account.machine->id, task.id, gap,
            task.min_gap_days, task.max_gap_days);
      }
      verdict_.cost.timing += cycle_cost(task, gap, task.cycle_days);
    }
    const int last = account.done.back().day;
    if (last + task.max_gap_days < instance_.days) {
      say("{} {}: done on day {}, so due again by day {}", account.machine->id, task.id, last,
          last + task.max_gap_days);
    }
    verdict_.cost.end += open_cycle_cost(task, instance_.days - last, task.cycle_days);
  }

  void count_agreed(const TaskAccount& account) {
    const Task& task = *account.task;
    if (!task.agreed) return;
    const SlotName agreed{task.agreed->day, task.agreed->shift};
    if (!account.done.empty() && account.done.front() == agreed) return;
    if (task.agreed->move_cost) {
      *verdict_.cost.moving += *task.agreed->move_cost;
    } else {
      say("{} {} is agreed for day {} shift {}, but is not first done then", account.machine->id, task.id, agreed.day,
          agreed.shift);
    }
  }

  void count_never(const TaskAccount& account) {
    const Task& task = *account.task;
    if (task.first_latest_day && *task.first_latest_day < instance_.days) {
      say("{} {} is never done, but has to be by day {}", account.machine->id, task.id, *task.first_latest_day);
    }
    verdict_.cost.end += open_cycle_cost(task, task.age_days + instance_.days, first_lengths(task));
  }

  void count_first(const TaskAccount& account) {
    const Task& task = *account.task;
    const int first = account.done.front().day;
    if (first < task.first_earliest_day || first > task.first_latest_day.value_or(instance_.days)) {
      say("{} {}: first done on day {}, allowed are {} to {}", account.machine->id, task.id, first,
          task.first_earliest_day, task.first_latest_day.value_or(instance_.days));
    }
    verdict_.cost.timing += cycle_cost(task, task.age_days + first, first_lengths(task));
  }

  const Instance& instance_;
  PlanVerdict verdict_;
  std::map<std::string, const Crew*> crews_;
  std::map<std::string, const Cell*> cells_;
  std::map<std::string, const Machine*> machines_;
  std::map<std::pair<std::string, std::string>, TaskAccount> tasks_;
  std::map<std::pair<std::string, SlotName>, double> crew_hours_;
  std::map<std::pair<std::string, SlotName>, int> down_;
  std::set<std::pair<std::string, SlotName>> stops_;
  std::set<std::tuple<std::string, std::string, SlotName>> visits_;  // crew, place
};

}  // namespace

PlanVerdict evaluate_plan(const Instance& instance, const StopPlan& plan) {
  return Evaluation(instance, plan).verdict();
}

}  // namespace hw::plan
