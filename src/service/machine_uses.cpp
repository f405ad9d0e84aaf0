#include "src/service/machine_uses.h"

#include <set>

namespace hw::service {
namespace {

std::set<std::string> counters_of_tasks(const OpenShop& shop, const OpenMachine& machine) {
  std::set<std::string> counters;
  const auto lock = shop.look();
  for (const TaskRecord& record : machine.record.tasks) {
    if (record.retired_at) continue;
    for (const auto& trigger : record.task.triggers) {
      const auto* counter = std::get_if<catalogue::CounterTrigger>(&trigger);
      if (counter) counters.insert(counter->counter);
    }
  }
  return counters;
}

}  // namespace

Result<UseByCounter> uses_of(const OpenShop& shop, UseForecasts& forecasts, const OpenMachine& machine, Instant now) {
  UseByCounter uses;
  for (const std::string& counter : counters_of_tasks(shop, machine)) {
    HW_TAKE(use, forecasts.of(machine.record.machine.key, counter, now));
    uses.emplace(counter, std::move(use));
  }
  return uses;
}

UsedToday used_today_in(const std::vector<CounterNow>& counters) {
  std::map<std::string, double> today;
  for (const CounterNow& counter : counters) today.emplace(print(counter.key), counter.today);
  return [today = std::move(today)](const std::string& counter) {
    const auto there = today.find(counter);
    return there == today.end() ? 0.0 : there->second;
  };
}

UseOf use_in(const UseByCounter& uses) {
  return [&uses](const std::string& counter) -> const CounterUse* {
    const auto there = uses.find(counter);
    return there == uses.end() ? nullptr : there->second.get();
  };
}

}  // namespace hw::service
