#pragma once
// The judge from outside for tiny instances: every plan there is, costed from the definitions.

#include <limits>
#include <optional>

#include "src/plan/draft_plan.h"
#include "src/plan/stop_plan.h"
#include "src/plan/tiny_instance_test.h"

namespace hw::plan {

class TryingAll {
 public:
  explicit TryingAll(const Instance& instance) : instance_(instance) {
    for (const Machine& machine : instance.machines) {
      for (const Task& task : machine.tasks) tasks_.push_back({&machine, &task});
    }
    for (const auto& at : tasks_) {
      std::vector<Slots> ways;
      Slots begun;
      add_ways(*at.second, begun, ways);
      ways_.push_back(ways);
    }
    chosen_.resize(tasks_.size());
    choose(0);
  }

  // The cost of the cheapest plan that keeps all limits; empty where there is none.
  std::optional<double> least_cost() const { return best_ < 1e18 ? std::optional(best_) : std::nullopt; }

 private:
  int slot_count() const { return instance_.days * static_cast<int>(instance_.shifts.size()); }
  int day_of(int slot) const { return slot % instance_.days; }

  void add_ways(const Task& task, Slots& begun, std::vector<Slots>& ways) const {
    ways.push_back(begun);
    for (int slot = 0; slot < slot_count(); ++slot) {
      if (!begun.empty() && day_of(slot) - day_of(begun.back()) < task.min_gap_days) continue;
      if (begun.empty() && day_of(slot) < task.first_earliest_day) continue;
      begun.push_back(slot);
      add_ways(task, begun, ways);
      begun.pop_back();
    }
  }

  void choose(std::size_t task) {
    if (task == tasks_.size()) return judge();
    for (const Slots& way : ways_[task]) {
      chosen_[task] = &way;
      choose(task + 1);
    }
  }

  void judge() {
    StopPlan plan;
    plan.instance = instance_.name;
    for (std::size_t t = 0; t < tasks_.size(); ++t) {
      for (const int slot : *chosen_[t]) enter(plan, *tasks_[t].first, *tasks_[t].second, slot);
    }
    const PlanVerdict verdict = evaluate_plan(instance_, plan);
    if (verdict.problems.empty()) best_ = std::min(best_, verdict.cost.total());
  }

  void enter(StopPlan& plan, const Machine& machine, const Task& task, int slot) const {
    const int day = day_of(slot);
    const int shift = slot / instance_.days;
    if (task.state == EnergyState::running) {
      plan.running_jobs.push_back({machine.id, day, shift, task.id});
      return;
    }
    for (Stop& stop : plan.stops) {
      if (stop.machine != machine.id || stop.day != day || stop.shift != shift) continue;
      stop.state = std::max(stop.state, task.state);
      stop.tasks.push_back(task.id);
      return;
    }
    plan.stops.push_back({machine.id, day, shift, task.state, {task.id}});
  }

  const Instance& instance_;
  std::vector<std::pair<const Machine*, const Task*>> tasks_;
  std::vector<std::vector<Slots>> ways_;
  std::vector<const Slots*> chosen_;
  double best_ = 1e18;
};

}  // namespace hw::plan
