#include <algorithm>
#include <set>

#include "src/service/stop_kits.h"
#include "src/service/stores_cases.h"

namespace hw::service {
namespace {

TaskKitView task_kit(const OpenShop& shop, const catalogue::Machine& machine, const catalogue::Task& task) {
  TaskKitView view{machine.kind, {}, task.key, task.title, {}};
  for (const NeededLine& line : kit_of(shop, machine, task)) {
    view.lines.push_back({line.name, line.quantity, line.unit, line.part});
  }
  return view;
}

bool is_alike(const TaskKitView& one, const TaskKitView& other) {
  return std::equal(one.lines.begin(), one.lines.end(), other.lines.begin(), other.lines.end(),
                    [](const auto& a, const auto& b) {
                      return a.name == b.name && a.quantity == b.quantity && a.unit == b.unit && a.part == b.part;
                    });
}

// The first machine's kit stands for its kind; another one's stands beside it where it differs.
void add_kit(std::vector<TaskKitView>& kits, TaskKitView kit, const std::string& machine) {
  const auto of_kind = std::find_if(kits.begin(), kits.end(), [&](const TaskKitView& one) {
    return !one.machine && one.kind == kit.kind && one.task == kit.task;
  });
  if (of_kind == kits.end()) {
    kits.push_back(std::move(kit));
  } else if (!is_alike(*of_kind, kit)) {
    kit.machine = machine;
    kits.push_back(std::move(kit));
  }
}

bool has_kit_of_its_own(const Stores& stores, const std::string& machine, const std::string& task) {
  return std::any_of(stores.kits().begin(), stores.kits().end(),
                     [&](const catalogue::Kit& kit) { return kit.machine == machine && kit.task == task; });
}

}  // namespace

KitsView kits_view(const OpenShop& shop) {
  KitsView view;
  view.kits = shop.stores().kits();
  for (const bool is_own : {false, true}) {
    for (const auto& machine : shop.machines()) {
      const catalogue::Machine& what = machine->record.machine;
      for (const TaskRecord& record : machine->record.tasks) {
        if (record.retired_at || has_kit_of_its_own(shop.stores(), what.key, record.task.key) != is_own) continue;
        TaskKitView kit = task_kit(shop, what, record.task);
        if (!kit.lines.empty()) add_kit(view.tasks, std::move(kit), what.key);
      }
    }
  }
  std::set<std::string_view> kinds;
  for (const auto& machine : shop.machines()) kinds.insert(machine->record.machine.kind);
  for (const KindRecord& kind : shop.record().kinds) {
    if (!kinds.contains(kind.key)) continue;
    for (const auto& service : kind.services) {
      view.services.push_back({kind.key, service.key, service.title, service.title_de});
    }
  }
  return view;
}

KitsView show_kits(const OpenShop& shop) {
  const auto lock = shop.look();
  return kits_view(shop);
}

KitReadinessView show_readiness(const OpenShop& shop, Instant now) {
  const auto lock = shop.look();
  KitReadinessView view;
  for (const StopKit& kit : stop_kits(shop, shop.calendar().zone.date_of(now)).kits) {
    view.stops.push_back(readiness_view(shop, kit));
  }
  return view;
}

}  // namespace hw::service
