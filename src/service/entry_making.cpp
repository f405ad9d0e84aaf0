#include "src/service/entry_making.h"

namespace hw::service {

Result<std::optional<Entry>> repeated(const OpenShop& shop, std::string_view id, const EditPlace& place) {
  HW_TAKE(entry, shop.store().entry(id));
  if (entry && (entry->kind != place.kind || entry->machine != place.machine || entry->task != place.task)) {
    return refuse(ErrorCode::conflict, "id: {} is the id of another entry ({} on {}); an id is used once", id,
                  entry->kind, entry->machine);
  }
  return std::move(entry);
}

Result<TaskRecord*> find_task(OpenMachine& machine, std::string_view key) {
  for (TaskRecord& record : machine.record.tasks) {
    if (record.task.key == key) return &record;
  }
  return refuse(ErrorCode::not_found, "{} has no task \"{}\"", machine.record.machine.key, key.substr(0, 60));
}

Instant as_kept(Instant at) { return Instant::from_millis(at.as_millis()); }

std::optional<Instant> as_kept(std::optional<Instant> at) { return at ? std::optional{as_kept(*at)} : std::nullopt; }

Entry new_entry(const OpenMachine& machine, std::string_view kind, std::string_view id, std::string_view by,
                Instant now) {
  Entry entry;
  entry.id = id;
  entry.kind = kind;
  entry.machine = machine.record.machine.key;
  entry.by = by;
  entry.at = as_kept(now);
  entry.counters = totals_of(machine, now);
  return entry;
}

Result<void> keep(Store& store, const Entry& entry) {
  HW_TAKE(writing, store.begin());
  HW_TRY(writing->add_entry(entry));
  return writing->commit();
}

}  // namespace hw::service
