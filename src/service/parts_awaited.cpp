#include "src/service/parts_awaited.h"

#include <algorithm>
#include <set>

#include "src/service/lead_times.h"
#include "src/service/stop_kits.h"

namespace hw::service {
namespace {

constexpr double sure_enough = 0.9;
constexpr double awaited_dust = 1e-9;

struct Waiting {
  const catalogue::Machine* machine = nullptr;
  const proposal::TaskAhead* task = nullptr;
  std::optional<LocalDate> due;
};

class Awaiting {
 public:
  Awaiting(const OpenShop& shop, LocalDate today) : shop_(shop), today_(today), kits_(stop_kits(shop, today)) {}

  void add_stops() {
    for (const StopKit& kit : kits_.kits) {
      for (const PlannedTask& task : kit.stop->plan.tasks) planned_.insert({kit.stop->machine, task.task});
      for (const KitLineStanding& line : kit.lines) {
        const std::string state = state_of(line);
        if (state != "short" && state != "coming") continue;
        const LocalDate on = all_there_on(*line.line.part, line.standing);
        for (const std::string& task : line.line.tasks) add(kit.stop->machine, task, on);
        if (!line.line.tasks.empty()) continue;
        for (const PlannedTask& task : kit.stop->plan.tasks) add(kit.stop->machine, task.task, on);  // the service
      }
    }
  }

  void add_task(const Waiting& waiting) {
    if (planned_.contains({waiting.machine->key, waiting.task->task.key})) return;
    for (const NeededLine& line : kit_of(shop_, *waiting.machine, waiting.task->task)) {
      if (line.part) add(waiting.machine->key, waiting.task->task.key, there_on(*line.part, line.quantity));
    }
  }

  std::vector<catalogue::PartsAwaited> take() {
    std::vector<catalogue::PartsAwaited> all;
    for (const auto& [task, on] : latest_) {
      if (on > today_) all.push_back({task.first, task.second, on});
    }
    return all;
  }

 private:
  void add(const std::string& machine, const std::string& task, LocalDate on) {
    const auto [there, is_new] = latest_.try_emplace({machine, task}, on);
    if (!is_new) there->second = std::max(there->second, on);
  }

  LocalDate ordered_today(const std::string& number) const {
    const PartRecord* part = shop_.stores().part(number);
    return part ? today_ + lead_time_of(shop_, part->part).quantile(sure_enough) : today_;
  }

  // What is promised, and what has to be ordered yet.
  LocalDate all_there_on(const std::string& number, const kits::LineStanding& standing) const {
    const LocalDate promised = standing.expected_on.value_or(today_);
    return standing.lacking > awaited_dust ? std::max(promised, ordered_today(number)) : promised;
  }

  // Takes what it needs of what is left.
  LocalDate there_on(const std::string& number, double quantity) {
    add_stock(kits_.left, shop_, number, today_);
    const auto there = kits_.left.find(number);
    if (there == kits_.left.end()) return today_;
    const std::vector<kits::StopWant> want{{today_, {{number, quantity}}}};
    const auto standing = kits::reserve(want, kits_.left)[0][0];
    return all_there_on(number, standing);
  }

  const OpenShop& shop_;
  LocalDate today_;
  StopKits kits_;
  std::set<std::pair<std::string, std::string>> planned_;
  std::map<std::pair<std::string, std::string>, LocalDate> latest_;
};

}  // namespace

std::vector<catalogue::PartsAwaited> parts_awaited(const OpenShop& shop, const proposal::ShopAhead& ahead) {
  if (shop.stores().is_empty()) return {};
  Awaiting awaiting(shop, ahead.today);
  awaiting.add_stops();
  std::vector<Waiting> waiting;
  for (const proposal::MachineAhead& machine : ahead.machines) {
    const auto open = shop.find(machine.key);
    if (!open) continue;
    for (const proposal::TaskAhead& task : machine.tasks) {
      waiting.push_back({&(*open)->record.machine, &task, due::quantile(task.due, 0.5)});
    }
  }
  std::stable_sort(waiting.begin(), waiting.end(), [](const Waiting& one, const Waiting& other) {
    return one.due && other.due ? *one.due < *other.due : one.due && !other.due;
  });
  for (const Waiting& one : waiting) awaiting.add_task(one);
  return awaiting.take();
}

}  // namespace hw::service
