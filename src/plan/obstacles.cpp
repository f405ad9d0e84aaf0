#include "src/plan/obstacles.h"

#include <algorithm>
#include <functional>
#include <optional>

namespace hw::plan {
namespace {

// Tries the task on a copy of its machine's world in which one limit was changed.
class Relaxing {
 public:
  Relaxing(const Instance& instance, const Draft& draft, TaskAt at) : instance_(instance), draft_(draft), at_(at) {}

  bool fits_alone() const {
    Instance alone = instance_;
    Machine machine = alone.machines[static_cast<std::size_t>(at_.machine)];
    machine.tasks = {machine.tasks[static_cast<std::size_t>(at_.task)]};
    alone.machines = {machine};
    const Model model = build_model(alone);
    return Draft(model).place({0, 0});
  }

  bool fits_with(const std::function<void(Instance&)>& change) const {
    Instance changed = instance_;
    change(changed);
    const Model model = build_model(changed);
    Draft draft(model);
    draft.put_all(draft_.choice());
    return draft.place(at_);
  }

  // The smallest whole amount up to `most` that helps; more never hurts.
  std::optional<int> least(int most, const std::function<void(Instance&, int amount)>& change) const {
    const auto fits = [&](int amount) { return fits_with([&](Instance& one) { change(one, amount); }); };
    if (!fits(most)) return std::nullopt;
    int fails = 0;
    while (most - fails > 1) {
      const int middle = fails + (most - fails) / 2;
      (fits(middle) ? most : fails) = middle;
    }
    return most;
  }

  Task& task(Instance& changed) const {
    return changed.machines[static_cast<std::size_t>(at_.machine)].tasks[static_cast<std::size_t>(at_.task)];
  }
  Machine& machine(Instance& changed) const { return changed.machines[static_cast<std::size_t>(at_.machine)]; }

 private:
  const Instance& instance_;
  const Draft& draft_;
  TaskAt at_;
};

template <class Named>
Named& named(std::vector<Named>& all, const std::string& id) {
  return *std::find_if(all.begin(), all.end(), [&](const Named& one) { return one.id == id; });
}

// Still within the horizon: that it need not be done at all is no way to do it.
std::optional<int> days_later(const Relaxing& relaxing, const Task& task, int days) {
  const int most = task.first_latest_day ? days - 1 - *task.first_latest_day : days;
  if (most < 1) return std::nullopt;
  return relaxing.least(most, [&](Instance& changed, int amount) {
    Task& later = relaxing.task(changed);
    later.max_gap_days += amount;
    if (later.first_latest_day) *later.first_latest_day += amount;
  });
}

// In steps of half an hour, in every shift in which the crew works; else in all shifts.
std::optional<int> half_hours_more(const Relaxing& relaxing, const std::string& crew) {
  return relaxing.least(48, [&](Instance& changed, int amount) {
    for (auto& row : named(changed.crews, crew).overtime_hours) {
      for (double& hours : row) hours += amount * 0.5;
    }
  });
}

std::optional<int> machines_more(const Relaxing& relaxing, const std::string& cell) {
  return relaxing.least(8, [&](Instance& changed, int amount) {
    for (auto& row : named(changed.cells, cell).max_down) {
      for (int& most : row) most += amount;
    }
  });
}

std::optional<int> days_earlier(const Relaxing& relaxing, const Task& task) {
  if (task.first_earliest_day <= 0) return std::nullopt;
  return relaxing.least(task.first_earliest_day,
                        [&](Instance& changed, int amount) { relaxing.task(changed).first_earliest_day -= amount; });
}

std::optional<int> shift_hours_more(const Relaxing& relaxing) {
  return relaxing.least(24, [&](Instance& changed, int amount) {
    for (Shift& shift : changed.shifts) shift.hours += amount;
  });
}

// The ways out that only few instances have.
void add_rare_ways(std::vector<WayOut>& ways, const Relaxing& relaxing, const Instance& instance, TaskAt at) {
  const Machine& machine = instance.machines[static_cast<std::size_t>(at.machine)];
  const Task& task = machine.tasks[static_cast<std::size_t>(at.task)];
  if (!machine.blackouts.empty() && relaxing.fits_with([&](Instance& it) { relaxing.machine(it).blackouts.clear(); })) {
    ways.push_back({Relaxation::no_blackout, 0, {}});
  }
  if (task.agreed && relaxing.fits_with([&](Instance& it) { relaxing.task(it).agreed.reset(); })) {
    ways.push_back({Relaxation::another_slot, 0, {}});
  }
  if (instance.closed_days && relaxing.fits_with([](Instance& it) { it.closed_days.reset(); })) {
    ways.push_back({Relaxation::no_closed_day, 0, {}});
  }
}

std::string words_of(const WayOut& way, const Machine& machine, const Task& task) {
  switch (way.relaxation) {
    case Relaxation::days_later:
      return fmt::format("{} days later", way.amount);
    case Relaxation::crew_hours:
      return fmt::format("{} h more of crew {} a shift", way.amount, way.of);
    case Relaxation::cell_places:
      return fmt::format("{} more machines of cell {} down at once", way.amount, way.of);
    case Relaxation::no_blackout:
      return fmt::format("no blackout for {}", machine.id);
    case Relaxation::another_slot:
      return fmt::format("another slot than day {} shift {}", task.agreed->day, task.agreed->shift);
    case Relaxation::no_closed_day:
      return "no closed days";
    case Relaxation::days_earlier:
      return fmt::format("ready {} days earlier", way.amount);
    case Relaxation::shift_hours:
      return fmt::format("shifts {} h longer", way.amount);
  }
  return "";
}

std::string agreed_words(const Task& task) {
  if (!task.agreed) return "";
  return fmt::format(", is agreed for day {} shift {}", task.agreed->day, task.agreed->shift);
}

}  // namespace

NoPlace find_obstacles(const Instance& instance, const Draft& draft, TaskAt at) {
  const Relaxing relaxing(instance, draft, at);
  const Machine& machine = instance.machines[static_cast<std::size_t>(at.machine)];
  const Task& task = machine.tasks[static_cast<std::size_t>(at.task)];
  NoPlace found{!relaxing.fits_alone(), {}};
  const auto add = [&](std::optional<int> amount, Relaxation relaxation, double unit, const std::string& of) {
    if (amount) found.ways.push_back({relaxation, *amount * unit, of});
  };
  add(days_later(relaxing, task, instance.days), Relaxation::days_later, 1, {});
  add(half_hours_more(relaxing, task.crew), Relaxation::crew_hours, 0.5, task.crew);
  add(machines_more(relaxing, machine.cell), Relaxation::cell_places, 1, machine.cell);
  add_rare_ways(found.ways, relaxing, instance, at);
  add(days_earlier(relaxing, task), Relaxation::days_earlier, 1, {});
  add(shift_hours_more(relaxing), Relaxation::shift_hours, 1, {});
  return found;
}

std::string explain_no_place(const Instance& instance, const Draft& draft, TaskAt at) {
  const Machine& machine = instance.machines[static_cast<std::size_t>(at.machine)];
  const Task& task = machine.tasks[static_cast<std::size_t>(at.task)];
  const NoPlace found = find_obstacles(instance, draft, at);
  std::vector<std::string> ways;
  for (const WayOut& way : found.ways) ways.push_back(words_of(way, machine, task));
  const std::string latest = task.first_latest_day ? fmt::format(" first by day {} and", *task.first_latest_day) : "";
  return fmt::format("{} {} {} (it has to be done{} at most {} days apart{}): {}", machine.id, task.id,
                     found.is_impossible ? "cannot be placed" : "found no place beside the other work", latest,
                     task.max_gap_days, agreed_words(task),
                     ways.empty() ? "no single limit alone forbids it"
                                  : fmt::format("the least that would do is {}", fmt::join(ways, ", or ")));
}

}  // namespace hw::plan
