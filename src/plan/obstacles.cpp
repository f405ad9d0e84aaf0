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

std::optional<int> days_later(const Relaxing& relaxing, int days) {
  return relaxing.least(days, [&](Instance& changed, int amount) {
    Task& task = relaxing.task(changed);
    task.max_gap_days += amount;
    if (task.first_latest_day) *task.first_latest_day += amount;
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

std::string agreed_words(const Task& task) {
  if (!task.agreed) return "";
  return fmt::format(", is agreed for day {} shift {}", task.agreed->day, task.agreed->shift);
}

std::optional<int> shift_hours_more(const Relaxing& relaxing) {
  return relaxing.least(24, [&](Instance& changed, int amount) {
    for (Shift& shift : changed.shifts) shift.hours += amount;
  });
}

}  // namespace

std::string explain_no_place(const Instance& instance, const Draft& draft, TaskAt at) {
  const Relaxing relaxing(instance, draft, at);
  const Machine& machine = instance.machines[static_cast<std::size_t>(at.machine)];
  const Task& task = machine.tasks[static_cast<std::size_t>(at.task)];
  std::vector<std::string> ways;
  if (const auto days = days_later(relaxing, instance.days)) ways.push_back(fmt::format("{} days later", *days));
  if (const auto halves = half_hours_more(relaxing, task.crew)) {
    ways.push_back(fmt::format("{} h more of crew {} a shift", *halves * 0.5, task.crew));
  }
  if (const auto more = machines_more(relaxing, machine.cell)) {
    ways.push_back(fmt::format("{} more machines of cell {} down at once", *more, machine.cell));
  }
  if (!machine.blackouts.empty() && relaxing.fits_with([&](Instance& it) { relaxing.machine(it).blackouts.clear(); })) {
    ways.push_back(fmt::format("no blackout for {}", machine.id));
  }
  if (task.agreed && relaxing.fits_with([&](Instance& it) { relaxing.task(it).agreed.reset(); })) {
    ways.push_back(fmt::format("another slot than day {} shift {}", task.agreed->day, task.agreed->shift));
  }
  if (instance.closed_days && relaxing.fits_with([](Instance& it) { it.closed_days.reset(); })) {
    ways.push_back("no closed days");
  }
  if (const auto days = days_earlier(relaxing, task)) ways.push_back(fmt::format("ready {} days earlier", *days));
  if (const auto hours = shift_hours_more(relaxing)) ways.push_back(fmt::format("shifts {} h longer", *hours));
  const std::string latest = task.first_latest_day ? fmt::format(" first by day {} and", *task.first_latest_day) : "";
  return fmt::format("{} {} {} (it has to be done{} at most {} days apart{}): {}", machine.id, task.id,
                     relaxing.fits_alone() ? "found no place beside the other work" : "cannot be placed", latest,
                     task.max_gap_days, agreed_words(task),
                     ways.empty() ? "no single limit alone forbids it"
                                  : fmt::format("the least that would do is {}", fmt::join(ways, ", or ")));
}

}  // namespace hw::plan
