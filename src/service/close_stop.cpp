#include <map>

#include "src/condition/possible_value.h"
#include "src/service/stop_entries.h"
#include "src/service/stop_follow_up.h"
#include "src/service/stop_plan.h"
#include "src/service/use_cases.h"
#include "src/service/used_parts.h"

namespace hw::service {
namespace {

constexpr Duration ahead_max = Duration::hours(24);

// What a closing is made of: its entries are kept together or not at all.
struct ClosingEntries {
  std::vector<Entry> done;
  Entry closed;
  std::optional<Entry> used;  // about the stores
};

Result<void> check_reading(const catalogue::Task& task, const ReadValue& read) {
  for (const catalogue::TaskReading& reading : task.readings) {
    if (reading.what != read.what) continue;
    HW_TRY(condition::check_unit(reading, read.unit));
    return condition::check_value(reading, read.value);
  }
  return refuse(ErrorCode::bad_input, "\"{}\" is no reading of \"{}\"", read.what.substr(0, 60), task.title);
}

Result<void> check_readings_of(const catalogue::Task& task, const StopDone& done) {
  for (const ReadValue& read : done.readings.value_or(std::vector<ReadValue>{})) {
    if (auto checked = check_reading(task, read); !checked) return refuse(checked.error().at("readings"));
  }
  if (done.quantity && !task.quantity_unit) {
    return refuse(ErrorCode::bad_input, "quantity: \"{}\" has none; only a top up has one", task.title);
  }
  return {};
}

// What is done is a task of the stop, and what was read can be.
Result<void> check_doings(const OpenMachine& machine, const Stop& stop, const StopClose& edit) {
  for (std::size_t i = 0; i < edit.done.size(); ++i) {
    const StopDone& done = edit.done[i];
    const std::string place = fmt::format("done[{}]", i);
    if (!has_task(stop, done.task)) {
      return refuse(ErrorCode::bad_input, "{}.task: \"{}\" is not in the stop", place, done.task);
    }
    HW_TAKE(record, find_task(machine, done.task));
    if (auto checked = check_readings_of(record->task, done); !checked) return refuse(checked.error().at(place));
  }
  return {};
}

Result<void> check_times(const StopClose& edit, Instant now) {
  if (edit.ended_at <= edit.sent_at.value_or(now) + ahead_max) return {};
  return refuse(ErrorCode::bad_input, "ended_at: {} is in the future", print(edit.ended_at));
}

// Makes the entries of the tasks; those of one moment have the counters of that moment, which are counted once.
class DoneEntries {
 public:
  DoneEntries(const OpenShop& shop, const OpenMachine& machine, const Stop& stop, const StopClose& edit, Instant now)
      : shop_(shop), machine_(machine), stop_(stop), edit_(edit), now_(now) {}

  Result<Entry> make(const StopDone& done) {
    const Signature signature{done.id, done.by.value_or(edit_.by), done.at.value_or(edit_.ended_at), edit_.sent_at};
    Entry entry = bare_entry(shop_, machine_.record.machine.key, "task done", signature, now_);
    HW_TAKE(counters, counters_of(signature, entry.happened_at));
    entry.counters = std::move(counters);
    HW_TAKE(record, find_task(machine_, done.task));
    tell_done_in(entry, stop_, record->task.title, done);
    if (done.quantity) entry.body.doing->quantity_unit = record->task.quantity_unit;
    if (const auto counts = check_is_not_retired(shop_, *record); !counts) make_stray(entry, counts.error());
    return entry;
  }

 private:
  Result<CounterTotals> counters_of(const Signature& signature, Instant happened_at) {
    const auto there = counted_.find(happened_at);
    if (there != counted_.end()) return there->second;
    HW_TAKE(entry, new_entry(shop_, machine_, "task done", signature, now_));
    return counted_[happened_at] = std::move(entry.counters);
  }

  const OpenShop& shop_;
  const OpenMachine& machine_;
  const Stop& stop_;
  const StopClose& edit_;
  Instant now_;
  std::map<Instant, CounterTotals> counted_;
};

Result<ClosingEntries> closing_entries(const OpenShop& shop, const Stop& stop, const StopClose& edit, Instant now) {
  HW_TAKE(closed, entry_about(shop, stop, stop_closed, edit, Told::seen, now));
  const auto lock = shop.look();
  HW_TAKE(machine, shop.find(stop.machine));
  HW_TRY(check_doings(*machine, stop, edit));
  HW_TAKE(used, used_entry(shop, stop, edit, now));
  ClosingEntries entries{{}, std::move(closed), std::move(used)};
  DoneEntries doing(shop, *machine, stop, edit, now);
  for (const StopDone& done : edit.done) {
    HW_TAKE(entry, doing.make(done));
    entries.done.push_back(std::move(entry));
  }
  tell_closed(entries.closed, stop, present_tasks(*machine, stop.plan), edit);
  return entries;
}

Result<void> keep_closing(Store& store, ClosingEntries& entries) {
  HW_TAKE(writing, store.begin());
  for (Entry& entry : entries.done) HW_TRY(writing->add_entry(entry));
  HW_TRY(writing->add_entry(entries.closed));
  if (entries.used) HW_TRY(writing->add_entry(*entries.used));
  return writing->commit();
}

}  // namespace

Result<StopView> close_stop(OpenShop& shop, std::string_view id, const StopClose& edit, Instant now) {
  HW_TRY(check(edit));
  if (edit.used) HW_TRY(check(*edit.used));
  const auto turn = shop.edit();
  HW_TAKE(stop, stored_stop(shop, id));
  HW_TAKE(is_again, was_told_before(shop, edit.id, stop_closed, stop));
  if (is_again) return shown_stop(shop, stop);
  HW_TRY(check_is_as_seen(stop, edit.version));
  HW_TRY(check_times(edit, now));
  HW_TAKE(entries, closing_entries(shop, stop, edit, now));
  HW_TRY(keep_closing(shop.store(), entries));
  if (entries.used) {
    const auto lock = shop.change();
    shop.stores().take({&*entries.used, 1});
  }
  std::vector<std::string> tasks;
  for (const StopDone& done : edit.done) tasks.push_back(done.task);
  HW_TRY(reload_last_done(shop, stop.machine, tasks));
  return reload_and_show(shop, id, stop.machine);
}

}  // namespace hw::service
