#include "src/service/found_shop.h"

#include <algorithm>
#include <set>

#include "src/counters/counter_key.h"
#include "src/service/followed_feed.h"

namespace hw::service {
namespace {

TaskRecord record_of(const catalogue::Task& task, bool is_own, Instant now) {
  return {.task = task,
          .version = 1,
          .is_own = is_own,
          .retired_at = {},
          .began_at = now,
          .began_counters = {},
          .last_done = {}};
}

// A counter that is misspelt would never count, and its task would never be due.
Result<void> check_task(const catalogue::Task& task, const catalogue::TaskSet& set) {
  const auto has_key = [&](const auto& one) { return one.key == task.assembly; };
  if (std::none_of(set.assemblies.begin(), set.assemblies.end(), has_key)) {
    return refuse(ErrorCode::bad_input, "assembly: there is no assembly \"{}\" on a {}", task.assembly, set.kind);
  }
  const auto has_number = [&](const auto& one) { return one.number == *task.point; };
  if (task.point && std::none_of(set.points.begin(), set.points.end(), has_number)) {
    return refuse(ErrorCode::bad_input, "point: there is no point {} on a {}", *task.point, set.kind);
  }
  for (const auto& trigger : task.triggers) {
    const auto* counter = std::get_if<catalogue::CounterTrigger>(&trigger);
    if (counter) HW_TRY(counters::parse_counter_key(counter->counter));
  }
  return {};
}

Result<void> check_tasks(const MachineRecord& record, const catalogue::TaskSet& set) {
  std::set<std::string_view> keys;
  std::vector<catalogue::Task> tasks;
  for (const TaskRecord& one : record.tasks) {
    tasks.push_back(one.task);
    const std::string place = fmt::format("machine {}, task {}", record.machine.key, one.task.key);
    const auto checked = check_task(one.task, set);
    if (!checked) return refuse(checked.error().at(place));
    if (!keys.insert(one.task.key).second) {
      return refuse(ErrorCode::bad_input, "{}: another task of the machine has this key", place);
    }
  }
  for (const catalogue::Task& task : tasks) {
    for (const std::string& other : task.after) {
      if (keys.contains(other)) continue;
      return refuse(ErrorCode::bad_input, "machine {}, task {}, after: the machine has no task \"{}\"",
                    record.machine.key, task.key, other);
    }
  }
  if (const auto read = catalogue::check_reading_triggers(tasks); !read) {
    return refuse(read.error().at(fmt::format("machine {}", record.machine.key)));
  }
  const auto ordered = catalogue::check_precedence(tasks);
  return ordered ? ordered : refuse(ordered.error().at(fmt::format("machine {}", record.machine.key)));
}

// The counters whose unknown time is filled are the whole machine's.
Result<void> check_fills(const catalogue::Machine& machine) {
  for (const auto& [counter, item] : machine.fills) {
    const auto key = counters::parse_counter_key(counter);
    if (!key) return refuse(key.error().at(fmt::format("machine {}, fills", machine.key)));
    if (!key->label.empty()) {
      return refuse(ErrorCode::bad_input, "machine {}, fills: \"{}\" is one item's counter; write \"{}\"", machine.key,
                    counter, word_of(key->kind));
    }
  }
  return {};
}

Result<MachineRecord> found_machine(const catalogue::Machine& machine, std::span<const catalogue::TaskSet> sets,
                                    Instant now) {
  const auto set = std::find_if(sets.begin(), sets.end(), [&](const auto& one) { return one.kind == machine.kind; });
  if (set == sets.end()) {
    return refuse(ErrorCode::bad_input, "machine {}: there is no starting set for the kind \"{}\"", machine.key,
                  machine.kind);
  }
  MachineRecord record{.machine = machine,
                       .assemblies = set->assemblies,
                       .points = set->points,
                       .walk = {},
                       .tasks = {},
                       .feed = {},
                       .device = machine.device.empty() ? machine.key : machine.device};
  record.machine.own_tasks.clear();
  HW_TRY(check_fills(machine));
  for (const auto& task : set->tasks) record.tasks.push_back(record_of(task, false, now));
  for (const auto& task : machine.own_tasks) record.tasks.push_back(record_of(task, true, now));
  HW_TRY(check_tasks(record, *set));
  return record;
}

// The feed that reads that agent; made when it is the first machine's.
std::string feed_of(ShopRecord& shop, const std::string& url) {
  const auto there =
      std::find_if(shop.feeds.begin(), shop.feeds.end(), [&](const auto& one) { return one.url == url; });
  if (there != shop.feeds.end()) return there->key;
  shop.feeds.push_back({fmt::format("feed-{}", shop.feeds.size() + 1), url});
  return shop.feeds.back().key;
}

// Observations of a device go to one machine.
Result<void> check_device_once(const std::vector<MachineRecord>& machines, const MachineRecord& record) {
  const auto has_it = [&](const auto& one) { return one.feed == record.feed && one.device == record.device; };
  const auto there = std::find_if(machines.begin(), machines.end(), has_it);
  if (there == machines.end()) return {};
  return refuse(ErrorCode::bad_input, "machine {}, device: \"{}\" of the same agent is machine {} already",
                record.machine.key, record.device, there->machine.key);
}

// A task that is misspelt would never wait.
Result<void> check_parts_awaited(const catalogue::Stopping& stopping, const std::vector<MachineRecord>& machines) {
  for (const catalogue::PartsAwaited& parts : stopping.parts_awaited) {
    const auto machine = std::find_if(machines.begin(), machines.end(),
                                      [&](const auto& one) { return one.machine.key == parts.machine; });
    const auto is_task = [&](const TaskRecord& one) { return one.task.key == parts.task; };
    if (machine != machines.end() && std::any_of(machine->tasks.begin(), machine->tasks.end(), is_task)) continue;
    return refuse(ErrorCode::bad_input, "parts_awaited, task: machine \"{}\" has no task \"{}\"", parts.machine,
                  parts.task);
  }
  return {};
}

}  // namespace

Result<NewShop> found_shop(const catalogue::Shop& shop, std::span<const catalogue::TaskSet> sets, Instant now) {
  NewShop out;
  out.shop = {.plant = shop.plant,
              .calendar = shop.calendar,
              .cells = shop.cells,
              .people = shop.people,
              .kinds = {},
              .feeds = {},
              .aliases = shop.aliases,
              .stopping = shop.stopping};
  for (const auto& set : sets) {
    out.shop.kinds.push_back({set.kind, set.title, set.title_de, set.isolation, set.services});
  }
  for (const auto& machine : shop.machines) {
    HW_TAKE(record, found_machine(machine, sets, now));
    const std::string& agent = machine.agent.empty() ? shop.agent : machine.agent;
    if (!agent.empty()) {
      const auto checked = check_feed_url(agent);
      if (!checked) return refuse(checked.error().at(fmt::format("machine {}, agent", machine.key)));
      record.feed = feed_of(out.shop, agent);
      HW_TRY(check_device_once(out.machines, record));
    }
    out.machines.push_back(std::move(record));
  }
  HW_TRY(check_parts_awaited(shop.stopping, out.machines));
  return out;
}

}  // namespace hw::service
