#include "src/service/entry_making.h"

#include "libs/formats/enum_words.h"
#include "src/service/happened.h"

namespace hw::service {

Result<std::optional<Entry>> repeated(const OpenShop& shop, std::string_view id, const EditPlace& place) {
  HW_TAKE(entry, shop.store().entry(id));
  if (entry && (entry->kind != place.kind || entry->machine != place.machine || entry->task != place.task)) {
    return refuse(ErrorCode::conflict, id_used, "id: {} is the id of another entry ({} on {}); an id is used once", id,
                  entry->kind, entry->machine);
  }
  return std::move(entry);
}

Result<const TaskRecord*> find_task(const OpenMachine& machine, std::string_view key) {
  for (const TaskRecord& record : machine.record.tasks) {
    if (record.task.key == key) return &record;
  }
  return refuse(ErrorCode::not_found,
                Saying{"no-task", {{"machine", machine.record.machine.key}, {"task", std::string{key.substr(0, 60)}}}},
                "{} has no task \"{}\"", machine.record.machine.key, key.substr(0, 60));
}

void make_stray(Entry& entry, const Error& why) {
  entry.body.stray = why.message;
  entry.body.stray_saying = why.saying;
}

Result<void> check_is_not_retired(const OpenShop& shop, const TaskRecord& record) {
  if (!record.retired_at) return {};
  const std::string& title = record.task.title;
  const std::string date = print(shop.calendar().zone.date_of(*record.retired_at));
  return refuse(ErrorCode::conflict, Saying{"task-retired-on", {{"title", title}, {"date", date}}},
                "\"{}\" was retired on {}", title, date);
}

Instant as_kept(Instant at) { return Instant::from_millis(at.as_millis()); }

std::optional<Instant> as_kept(std::optional<Instant> at) { return at ? std::optional{as_kept(*at)} : std::nullopt; }

namespace {

// What happened no longer ago has the counters of now: a message is on its way for some seconds.
constexpr Duration late_from = Duration::seconds(60);

// The totals that a machine had at an earlier moment; where that is not known any more, those of now without what
// people settled since.
Result<CounterTotals> totals_at(const OpenShop& shop, const OpenMachine& machine, Instant moment, Instant now) {
  if (now - moment <= late_from) return totals_of(machine, now);
  HW_TAKE(past, machine.count.at_past(shop.store(), machine.record.machine.key, moment));
  CounterTotals totals;
  for (const Adjustment& one : machine.adjustments) {
    if (one.at <= moment) totals[one.counter] += one.amount;
  }
  const auto counters = past ? std::move(*past) : machine.count.at(now).counters;
  for (const CounterNow& counter : counters) totals[print(counter.key)] += counter.counted + counter.filled;
  return totals;
}

}  // namespace

Entry bare_entry(const OpenShop& shop, std::string_view machine, std::string_view kind, const Signature& signature,
                 Instant now) {
  const Happened when = happened({signature.at, signature.sent_at}, {now, shop.founded_at()});
  Entry entry;
  entry.id = signature.id;
  entry.kind = kind;
  entry.machine = machine;
  entry.by = signature.by;
  entry.at = as_kept(now);
  entry.device_at = as_kept(signature.at);
  entry.happened_at = when.at;
  entry.body.device_off_s = when.device_off_s;
  return entry;
}

Result<Entry> new_entry(const OpenShop& shop, const OpenMachine& machine, std::string_view kind,
                        const Signature& signature, Instant now) {
  Entry entry = bare_entry(shop, machine.record.machine.key, kind, signature, now);
  HW_TAKE(counters, totals_at(shop, machine, entry.happened_at, now));
  entry.counters = std::move(counters);
  return entry;
}

Result<Entry> new_or_stray_entry(const OpenShop& shop, std::string_view machine, std::string_view kind,
                                 const Signature& signature, Instant now) {
  const auto open = shop.find(machine);
  if (open) return new_entry(shop, **open, kind, signature, now);
  HW_TRY(check_key("machine", machine));
  Entry entry = bare_entry(shop, machine, kind, signature, now);
  make_stray(entry, open.error());
  return entry;
}

void tell_done(Entry& entry, const std::string& title, std::optional<AsFound> as_found) {
  entry.body.title = title;
  entry.says = as_found ? fmt::format("{}: done; as found: {}", title, formats::print_word(*as_found))
                        : fmt::format("{}: done", title);
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
    if (there == last_done.end()) continue;
    record.last_done = std::move(there->second);
    open->readings.forget(record.task.key);
  }
  ++open->tasks_version;
  return {};
}

}  // namespace hw::service
