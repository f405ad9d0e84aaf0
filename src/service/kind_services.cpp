#include "src/service/kind_services.h"

#include <algorithm>

namespace hw::service {
namespace {

const KindRecord* find_kind(const OpenShop& shop, std::string_view kind) {
  for (const KindRecord& one : shop.record().kinds) {
    if (one.key == kind) return &one;
  }
  return nullptr;
}

bool has_it(const MachineRecord& machine, const std::string& key) {
  return std::any_of(machine.tasks.begin(), machine.tasks.end(),
                     [&](const TaskRecord& one) { return one.task.key == key && !one.retired_at; });
}

bool is_among(const std::vector<PlannedTask>& tasks, const std::string& key) {
  return std::any_of(tasks.begin(), tasks.end(), [&](const PlannedTask& one) { return one.task == key; });
}

}  // namespace

std::vector<catalogue::KindService> services_of(const OpenShop& shop, std::string_view kind) {
  const KindRecord* record = find_kind(shop, kind);
  return record ? record->services : std::vector<catalogue::KindService>{};
}

const catalogue::KindService* service_in(const OpenShop& shop, const MachineRecord& machine,
                                         const std::vector<PlannedTask>& tasks) {
  const KindRecord* record = find_kind(shop, machine.machine.kind);
  if (!record) return nullptr;
  for (const catalogue::KindService& service : record->services) {
    int in_stop = 0, in_service = 0;
    for (const std::string& key : service.tasks) {
      if (!has_it(machine, key)) continue;
      ++in_service;
      if (is_among(tasks, key)) ++in_stop;
    }
    if (in_stop > 0 && 2 * in_stop >= in_service) return &service;
  }
  return nullptr;
}

}  // namespace hw::service
