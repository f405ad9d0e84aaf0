#include "src/simulate/stores_floor.h"

#include <algorithm>
#include <cmath>

#include "src/simulate/dice.h"

namespace hw::simulate {
namespace {

constexpr int task_parts = 10, failing_parts = 5;

}  // namespace

StoresFloor::StoresFloor(const StoresPlan& plan) : plan_(plan), random_(plan.seed) {
  for (int n = 0; n < plan.suppliers; ++n) {
    const double quoted = std::round(random_.log_between(3, 45));
    suppliers_.push_back({quoted, quoted * random_.between(0.9, 1.3), random_.between(0.15, 0.35)});
  }
  for (int kind = 0; kind < plan.kinds; ++kind) draw_kind(kind);
  agree_stops();
}

void StoresFloor::draw_kind(int kind) {
  const std::size_t first = parts_.size();
  for (int n = 0; n < task_parts + failing_parts; ++n) {
    const bool only_fails = n >= task_parts;
    StoredPart part{kind, random_.whole_between(0, plan_.suppliers - 1), 0, 0, 0};
    part.price = only_fails ? random_.log_between(50, 3000) : random_.log_between(5, 800);
    part.failures_per_day =
        plan_.machines_each / (only_fails ? random_.log_between(200, 2000) : random_.log_between(1500, 6000));
    part.use_per_day = part.failures_per_day;
    parts_.push_back(part);
  }
  const std::vector<std::vector<int>> places = {{0}, {1, 2}, {3, 4, 5}, {6, 7}, {8, 9}};
  const double intervals[] = {60, 90, 125, 180, 365};
  for (std::size_t n = 0; n < places.size(); ++n) {
    draw_task(kind, first, places[n], intervals[n] * random_.between(0.8, 1.2));
  }
}

void StoresFloor::draw_task(int kind, std::size_t first_part, const std::vector<int>& places, double interval) {
  std::vector<Taken> takes;
  for (const int place : places) {
    takes.push_back({first_part + static_cast<std::size_t>(place), double(random_.whole_between(1, 2))});
    parts_[takes.back().part].use_per_day += takes.back().quantity * plan_.machines_each / interval;
  }
  for (int n = 0; n < plan_.machines_each; ++n) {
    tasks_.push_back({kind * plan_.machines_each + n, interval, random_.between(0.05, 1) * interval, takes, {}});
  }
}

// One stop at a time on each machine.
void StoresFloor::agree_stops() {
  for (int machine = 0; machine < plan_.kinds * plan_.machines_each; ++machine) {
    double least = 1e9;
    bool is_agreed = false;
    for (const WornTask& task : tasks_) {
      if (task.machine != machine) continue;
      least = std::min(least, task.left);
      is_agreed = is_agreed || task.agreed;
    }
    if (is_agreed || least > notice_days) continue;
    const int on = day_ + std::max(static_cast<int>(std::lround(least)), 1);
    for (WornTask& task : tasks_) {
      if (task.machine == machine && task.left <= least + joined_days) task.agreed = on;
    }
  }
}

std::vector<KitTaken> StoresFloor::work_a_day() {
  std::vector<KitTaken> kits;
  for (int machine = 0; machine < plan_.kinds * plan_.machines_each; ++machine) {
    const double use = random_.gamma(1 / (use_scatter * use_scatter)) * use_scatter * use_scatter;
    KitTaken stop{true, {}};
    for (WornTask& task : tasks_) {
      if (task.machine != machine) continue;
      task.left -= use;
      if (task.agreed != day_) continue;
      stop.takes.insert(stop.takes.end(), task.takes.begin(), task.takes.end());
      task.left = task.interval;
      task.agreed.reset();
    }
    if (!stop.takes.empty()) kits.push_back(std::move(stop));
  }
  for (std::size_t part = 0; part < parts_.size(); ++part) {
    if (random_.chance(parts_[part].failures_per_day)) kits.push_back({false, {{part, 1}}});
  }
  ++day_;
  agree_stops();
  return kits;
}

int StoresFloor::delivery_days(int supplier, int ordered_on) const {
  numerics::Random random(
      mix(mix(plan_.seed, static_cast<std::uint64_t>(supplier) + 1000), static_cast<std::uint64_t>(ordered_on)));
  const PartSupplier& from = suppliers_[static_cast<std::size_t>(supplier)];
  return std::max(static_cast<int>(std::lround(from.middle_days * std::exp(from.scatter * random.normal()))), 1);
}

}  // namespace hw::simulate
