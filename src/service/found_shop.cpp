#include "src/service/found_shop.h"

#include <algorithm>

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
                       .tasks = {},
                       .feed = {},
                       .device = machine.device.empty() ? machine.key : machine.device};
  record.machine.own_tasks.clear();
  for (const auto& task : set->tasks) record.tasks.push_back(record_of(task, false, now));
  for (const auto& task : machine.own_tasks) {
    const auto has_its_key = [&](const TaskRecord& one) { return one.task.key == task.key; };
    if (std::any_of(record.tasks.begin(), record.tasks.end(), has_its_key)) {
      return refuse(ErrorCode::bad_input, "machine {}: its own task \"{}\" has the key of a task of the starting set",
                    machine.key, task.key);
    }
    record.tasks.push_back(record_of(task, true, now));
  }
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

}  // namespace

Result<NewShop> found_shop(const catalogue::Shop& shop, std::span<const catalogue::TaskSet> sets, Instant now) {
  NewShop out;
  out.shop = {.plant = shop.plant,
              .calendar = shop.calendar,
              .cells = shop.cells,
              .people = shop.people,
              .kinds = {},
              .feeds = {}};
  for (const auto& set : sets) out.shop.kinds.push_back({set.kind, set.title});
  for (const auto& machine : shop.machines) {
    HW_TAKE(record, found_machine(machine, sets, now));
    const std::string& agent = machine.agent.empty() ? shop.agent : machine.agent;
    if (!agent.empty()) record.feed = feed_of(out.shop, agent);
    out.machines.push_back(std::move(record));
  }
  return out;
}

}  // namespace hw::service
