#include "src/service/entry_making.h"

#include "src/service/happened.h"

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

Result<Entry> new_entry(const OpenShop& shop, const OpenMachine& machine, std::string_view kind,
                        const Signature& signature, Instant now) {
  const Happened when = happened({signature.at, signature.sent_at}, {now, shop.founded_at()});
  Entry entry;
  entry.id = signature.id;
  entry.kind = kind;
  entry.machine = machine.record.machine.key;
  entry.by = signature.by;
  entry.at = as_kept(now);
  entry.device_at = as_kept(signature.at);
  entry.happened_at = when.at;
  entry.counters = totals_of(machine, now);
  entry.body.device_off_s = when.device_off_s;
  return entry;
}

Result<void> keep(Store& store, Entry& entry) {
  HW_TAKE(writing, store.begin());
  HW_TRY(writing->add_entry(entry));
  return writing->commit();
}

Result<void> reload_last_done(OpenShop& shop, std::string_view machine, const std::vector<std::string>& tasks) {
  HW_TAKE(open, shop.find(machine));
  std::map<std::string, std::optional<Entry>> last_done;
  for (const std::string& task : tasks) {
    HW_TAKE(entry, shop.store().last_done(machine, task));
    last_done[task] = std::move(entry);
  }
  const auto lock = shop.change();
  for (TaskRecord& record : open->record.tasks) {
    const auto there = last_done.find(record.task.key);
    if (there != last_done.end()) record.last_done = std::move(there->second);
  }
  ++open->tasks_version;
  return {};
}

}  // namespace hw::service
