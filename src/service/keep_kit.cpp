#include <algorithm>

#include "src/service/kind_services.h"
#include "src/service/stores_cases.h"
#include "src/service/stores_entries.h"

namespace hw::service {
namespace {

// The title of the task or service that a kit is for. Refuses (not_found) what the shop does not have.
Result<std::string> title_of_place(const OpenShop& shop, const catalogue::Kit& kit) {
  if (kit.machine) {
    HW_TAKE(machine, shop.find(*kit.machine));
    HW_TAKE(record, find_task(*machine, *kit.task));
    return record->task.title;
  }
  for (const auto& service : services_of(shop, *kit.kind)) {
    if (kit.service == service.key) return service.title;
  }
  for (const auto& machine : shop.machines()) {
    if (!kit.task || machine->record.machine.kind != *kit.kind) continue;
    const auto record = find_task(*machine, *kit.task);
    if (record) return (*record)->task.title;
  }
  return refuse(ErrorCode::not_found, "{}: machines of the kind \"{}\" have no {} \"{}\"",
                kit.task ? "task" : "service", kit.kind->substr(0, 60), kit.task ? "task" : "service",
                kit.task.value_or(kit.service.value_or("")));
}

}  // namespace

Result<KitsView> keep_kit(OpenShop& shop, const KitEdit& edit, Instant now) {
  HW_TRY(check_signature(edit.id, edit.by));
  const auto turn = shop.edit();
  const std::string machine = edit.machine.value_or("");
  const catalogue::Kit kit{edit.kind, edit.machine, edit.task, edit.service, edit.lines};
  HW_TAKE(before, said_before(shop, edit.id, {kit_kept, machine},
                              [&](const StoresText& says) { return says_the_same(says.kit, kit); }));
  if (before) return show_kits(shop);
  Entry entry = bare_entry(shop, machine, kit_kept, edit, now);
  {
    const auto lock = shop.look();
    HW_TRY(catalogue::check(kit, shop.stores().present_parts()));
    HW_TAKE(title, title_of_place(shop, kit));
    tell_kit(entry, kit, title, shop.stores());
  }
  HW_TRY(keep_in_stores(shop, entry));
  return show_kits(shop);
}

}  // namespace hw::service
