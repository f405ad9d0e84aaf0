#include <algorithm>

#include "src/service/entry_making.h"
#include "src/service/make_views.h"
#include "src/service/use_cases.h"

namespace hw::service {
namespace {

// The task that an edit describes, checked against the machine: its assembly, point and counters are there.
Result<catalogue::Task> task_for(const OpenMachine& machine, std::string key, const TaskEdit& edit, Instant now) {
  HW_TAKE(task, task_of(std::move(key), edit));
  const auto& assemblies = machine.record.assemblies;
  const auto is_its_assembly = [&](const auto& one) { return one.key == task.assembly; };
  if (std::none_of(assemblies.begin(), assemblies.end(), is_its_assembly)) {
    return refuse(ErrorCode::bad_input, "assembly: {} has no assembly \"{}\"", machine.record.machine.key,
                  task.assembly);
  }
  const auto& points = machine.record.points;
  const auto is_its_point = [&](const auto& one) { return one.number == *task.point; };
  if (task.point && std::none_of(points.begin(), points.end(), is_its_point)) {
    return refuse(ErrorCode::bad_input, "point: {} has no point {}", machine.record.machine.key, *task.point);
  }
  const CounterTotals totals = totals_of(machine, now);
  for (const auto& trigger : task.triggers) {
    const auto* counter = std::get_if<catalogue::CounterTrigger>(&trigger);
    if (!counter) continue;
    const auto known = counters::parse_counter_key(counter->counter);
    if (!known) return refuse(known.error().at("counter"));
    if (!known->label.empty() && !totals.contains(counter->counter)) {
      return refuse(ErrorCode::bad_input, "counter: {} has no counter \"{}\"", machine.record.machine.key,
                    counter->counter);
    }
  }
  return std::move(task);
}

// A change that does not speak of readings, of the unit of a top up, of what comes before, of who demands it or of what
// it costs leaves them as they were: a page that does not know them must not lose them.
void keep_unsaid(catalogue::Task& task, const TaskEdit& edit, const catalogue::Task& before) {
  if (!edit.readings) task.readings = before.readings;
  if (!edit.quantity_unit && task.work == catalogue::WorkType::top_up) task.quantity_unit = before.quantity_unit;
  if (!edit.after) task.after = before.after;
  if (!edit.demanded_by) task.demanded_by = before.demanded_by;
  if (!edit.costs) task.costs = before.costs;
}

// What comes before the task is there, and none of the machine's tasks waits for itself.
Result<void> check_after(const OpenMachine& machine, const catalogue::Task& task) {
  std::vector<catalogue::Task> tasks{task};
  for (const TaskRecord& record : machine.record.tasks) {
    if (record.task.key != task.key) tasks.push_back(record.task);
  }
  for (const std::string& other : task.after) {
    if (find_task(machine, other)) continue;
    return refuse(ErrorCode::bad_input, "after: {} has no task \"{}\"", machine.record.machine.key,
                  other.substr(0, 60));
  }
  return catalogue::check_precedence(tasks);
}

// Every reading that makes a task due is taken, with the task as it is to be; nothing: it is to be retired.
Result<void> check_readings_taken(const OpenMachine& machine, std::string_view key,
                                  const std::optional<catalogue::Task>& task) {
  std::vector<catalogue::Task> tasks;
  for (const TaskRecord& record : machine.record.tasks) {
    if (!record.retired_at && record.task.key != key) tasks.push_back(record.task);
  }
  if (task) tasks.push_back(*task);
  return catalogue::check_reading_triggers(tasks);
}

// Entry and task go to the store together, then into memory. Returns the task as it is shown.
Result<TaskView> keep_task(OpenShop& shop, OpenMachine& machine, Entry& entry, TaskRecord record, Instant now) {
  HW_TAKE(writing, shop.store().begin());
  HW_TRY(writing->add_entry(entry));
  HW_TRY(writing->put_task(machine.record.machine.key, record));
  HW_TRY(writing->commit());
  const auto lock = shop.change();
  ++machine.tasks_version;
  machine.readings.forget(record.task.key);
  auto& tasks = machine.record.tasks;
  const auto there =
      std::find_if(tasks.begin(), tasks.end(), [&](const auto& one) { return one.task.key == record.task.key; });
  const auto kept = there == tasks.end() ? tasks.insert(there, std::move(record)) : (*there = std::move(record), there);
  return view_of(shop, machine, *kept, totals_of(machine, now), now);
}

// The answer to an edit that was sent again: the task as it is.
Result<TaskView> as_it_is(const OpenShop& shop, OpenMachine& machine, std::string_view task, Instant now) {
  const auto lock = shop.look();
  HW_TAKE(record, find_task(machine, task));
  return view_of(shop, machine, *record, totals_of(machine, now), now);
}

// What separates two states of a task, for the record: "interval 400 -> 500" would need words for every field, so the
// entry names the task and its new version, and the rows keep the rest.
void tell(Entry& entry, const TaskRecord& record, std::string_view what) {
  entry.task = record.task.key;
  entry.body.title = record.task.title;
  entry.body.version = record.version;
  entry.says = fmt::format("{}: {} (version {})", record.task.title, what, record.version);
}

tl::unexpected<Error> refuse_retired(const TaskRecord& record) {
  return refuse(ErrorCode::conflict, Saying{"task-retired", {{"title", record.task.title}}},
                "\"{}\" was retired already", record.task.title);
}

}  // namespace

Result<TaskView> add_task(OpenShop& shop, std::string_view key, const TaskEdit& edit, Instant now) {
  HW_TRY(check_signature(edit.id, edit.by));
  const auto turn = shop.edit();
  HW_TAKE(machine, shop.find(key));
  HW_TAKE(before, repeated(shop, edit.id, {"task added", key, edit.id}));
  if (before) return as_it_is(shop, *machine, *before->task, now);
  TaskRecord record;
  Entry entry;
  {
    const auto lock = shop.look();
    HW_TAKE(task, task_for(*machine, edit.id, edit, now));
    HW_TRY(check_after(*machine, task));
    HW_TRY(check_readings_taken(*machine, task.key, task));
    HW_TAKE(made, new_entry(shop, *machine, "task added", {edit.id, edit.by, {}, {}}, now));
    entry = std::move(made);
    record = {.task = std::move(task),
              .version = 1,
              .is_own = true,
              .retired_at = {},
              .began_at = entry.at,
              .began_counters = entry.counters,
              .last_done = {}};
  }
  tell(entry, record, "added");
  return keep_task(shop, *machine, entry, std::move(record), now);
}

Result<TaskView> change_task(OpenShop& shop, std::string_view key, std::string_view task_key, const TaskEdit& edit,
                             Instant now) {
  HW_TRY(check_signature(edit.id, edit.by));
  const auto turn = shop.edit();
  HW_TAKE(machine, shop.find(key));
  HW_TAKE(before, repeated(shop, edit.id, {"task changed", key, std::string{task_key}}));
  if (before) return as_it_is(shop, *machine, *before->task, now);
  TaskRecord record;
  Entry entry;
  {
    const auto lock = shop.look();
    HW_TAKE(present, find_task(*machine, task_key));
    if (present->retired_at) return refuse_retired(*present);
    if (!edit.version)
      return refuse(ErrorCode::bad_input, "version: it is missing; it is the version that was changed");
    if (*edit.version != present->version) {
      return refuse(ErrorCode::conflict, Saying{"task-changed", {{"title", present->task.title}}},
                    "\"{}\" was changed meanwhile: it is at version {}, not {}; look again", present->task.title,
                    present->version, *edit.version);
    }
    HW_TAKE(task, task_for(*machine, std::string{task_key}, edit, now));
    keep_unsaid(task, edit, present->task);
    HW_TRY(check_after(*machine, task));
    HW_TRY(check_readings_taken(*machine, task.key, task));
    record = *present;
    record.task = std::move(task);
    HW_TAKE(made, new_entry(shop, *machine, "task changed", {edit.id, edit.by, {}, {}}, now));
    entry = std::move(made);
  }
  ++record.version;
  tell(entry, record, "changed");
  return keep_task(shop, *machine, entry, std::move(record), now);
}

Result<EntryView> retire_task(OpenShop& shop, std::string_view key, std::string_view task, const Signature& signature,
                              Instant now) {
  HW_TRY(check_signature(signature.id, signature.by));
  const auto turn = shop.edit();
  HW_TAKE(machine, shop.find(key));
  HW_TAKE(before, repeated(shop, signature.id, {"task retired", key, std::string{task}}));
  if (before) return view_of(*before);
  TaskRecord record;
  Entry entry;
  {
    const auto lock = shop.look();
    HW_TAKE(present, find_task(*machine, task));
    if (present->retired_at) return refuse_retired(*present);
    if (auto taken = check_readings_taken(*machine, task, std::nullopt); !taken) {
      return refuse(ErrorCode::conflict, Saying{"reading-needed", {{"title", present->task.title}}},
                    "\"{}\" takes a reading that makes another task due: {}", present->task.title,
                    taken.error().message);
    }
    record = *present;
    HW_TAKE(made, new_entry(shop, *machine, "task retired", signature, now));
    entry = std::move(made);
  }
  record.retired_at = entry.at;
  ++record.version;
  tell(entry, record, "retired");
  HW_TRY(keep_task(shop, *machine, entry, std::move(record), now));
  return view_of(entry);
}

}  // namespace hw::service
