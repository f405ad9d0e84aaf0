#include "src/plan/habits.h"

#include <algorithm>
#include <cmath>

namespace hw::plan {
namespace {

constexpr int service_every_days = 28;
constexpr int together_days = 14;

// A task while one goes through the days: when it was last done and what that asks for.
struct Watch {
  int task = 0;
  double due = 0;  // day
  int earliest = 0;
  int latest = 0;  // `days` or more: it may stay undone
  Slots slots;
  bool is_stuck = false;
};

class Habits {
 public:
  Habits(const Instance& instance, const Model& model, Habit habit)
      : instance_(instance), draft_(model), habit_(habit), days_(instance.days) {}

  Draft take_all() && {
    keep_agreed();
    for (std::size_t m = 0; m < instance_.machines.size(); ++m) go_through(static_cast<int>(m));
    return std::move(draft_);
  }

 private:
  const Task& task(const Watch& watch) const {
    return instance_.machines[static_cast<std::size_t>(machine_)].tasks[static_cast<std::size_t>(watch.task)];
  }

  // Before anything else takes the room; go_through counts on from there.
  void keep_agreed() {
    for (std::size_t m = 0; m < instance_.machines.size(); ++m) {
      const std::vector<TaskModel>& tasks = draft_.model().machines[m].tasks;
      for (std::size_t t = 0; t < tasks.size(); ++t) {
        const TaskAt at{static_cast<int>(m), static_cast<int>(t)};
        const int slot = tasks[t].agreed_slot;
        if (slot < 0 || !is_allowed(tasks[t].first_cost[static_cast<std::size_t>(slot % days_)])) continue;
        if (is_allowed(draft_.price(at, slot))) draft_.put(at, {slot});
      }
    }
  }

  void go_through(int machine) {
    machine_ = machine;
    watches_.clear();
    const std::vector<Task>& tasks = instance_.machines[static_cast<std::size_t>(machine)].tasks;
    for (std::size_t t = 0; t < tasks.size(); ++t) {
      watches_.push_back({static_cast<int>(t), tasks[t].first_due_days[2], std::max(0, tasks[t].first_earliest_day),
                          tasks[t].first_latest_day.value_or(days_), draft_.slots_of({machine, static_cast<int>(t)})});
      begin_as_agreed(watches_.back());
    }
    while (Watch* next = next_due()) do_when_due(*next);
    for (const Watch& watch : watches_) {
      if (watch.is_stuck || watch.latest < days_) draft_.place({machine_, watch.task});
    }
  }

  // The day on which the rule wants it done.
  int wanted_day(const Watch& watch) const {
    int day = static_cast<int>(std::floor(watch.due));
    const bool is_frequent = task(watch).cycle_days[2] < service_every_days;
    if (habit_ == Habit::monthly_service && !is_frequent) {
      const int service_day = (machine_ * 5) % service_every_days;  // the machines' days are spread
      const int turns = (day - service_day) / service_every_days;
      day = std::max(service_day, service_day + turns * service_every_days);
    }
    return std::clamp(day, std::min(watch.earliest, days_ - 1), std::max(watch.earliest, watch.latest));
  }

  Watch* next_due() {
    Watch* next = nullptr;
    for (Watch& watch : watches_) {
      if (watch.is_stuck || watch.earliest >= days_ || wanted_day(watch) >= days_) continue;
      if (next == nullptr || wanted_day(watch) < wanted_day(*next)) next = &watch;
    }
    return next;
  }

  void do_when_due(Watch& watch) {
    const int wanted = wanted_day(watch);
    for (int away = 0; away < days_; ++away) {
      for (const int day : {wanted - away, wanted + away}) {
        if (!do_on(watch, day)) continue;
        if (habit_ == Habit::with_next_14_days && task(watch).state != EnergyState::running) do_with(day);
        return;
      }
    }
    watch.is_stuck = true;
  }

  bool do_on(Watch& watch, int day) {
    if (day < watch.earliest || day > watch.latest || day >= days_) return false;
    int best = -1;
    double best_price = forbidden / 2;
    for (int slot = day; slot < static_cast<int>(draft_.model().slots()); slot += days_) {
      const double price = draft_.price({machine_, watch.task}, slot);
      if (price >= best_price) continue;
      best = slot;
      best_price = price;
    }
    if (best < 0) return false;
    watch.slots.push_back(best);
    draft_.take({machine_, watch.task});
    draft_.put({machine_, watch.task}, watch.slots);
    count_on(watch);
    return true;
  }

  // What could not be kept and must not be moved has to find its place as best it can.
  void begin_as_agreed(Watch& watch) const {
    if (!watch.slots.empty()) return count_on(watch);
    watch.is_stuck = task(watch).agreed && !task(watch).agreed->move_cost;
  }

  // From the last execution.
  void count_on(Watch& watch) const {
    const int day = watch.slots.back() % days_;
    watch.due = day + task(watch).cycle_days[2];
    watch.earliest = day + std::max(1, task(watch).min_gap_days);
    watch.latest = day + task(watch).max_gap_days;
  }

  void do_with(int day) {
    for (Watch& watch : watches_) {
      const double ahead = std::min<double>(together_days, task(watch).cycle_days[2] / 2);
      if (watch.is_stuck || watch.due > day + ahead || task(watch).state == EnergyState::running) continue;
      do_on(watch, day);
    }
  }

  const Instance& instance_;
  Draft draft_;
  Habit habit_;
  int days_;
  int machine_ = 0;
  std::vector<Watch> watches_;
};

}  // namespace

Draft plan_by_habit(const Instance& instance, const Model& model, Habit habit) {
  return Habits(instance, model, habit).take_all();
}

std::optional<double> cost_of_habit(const Instance& instance, const Model& model, Habit habit) {
  const Draft draft = plan_by_habit(instance, model, habit);
  if (!draft.tasks_without_place().empty()) return std::nullopt;
  return draft.cost();
}

}  // namespace hw::plan
