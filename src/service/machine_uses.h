#pragma once
// The use of all counters on which a machine's tasks count.

#include <map>
#include <memory>
#include <string>

#include "src/service/task_forecast.h"

namespace hw::service {

using UseByCounter = std::map<std::string, std::shared_ptr<const CounterUse>>;

// Retired tasks left out. The caller holds no lock. Errors: what the store refuses.
Result<UseByCounter> uses_of(const OpenShop& shop, UseForecasts& forecasts, const OpenMachine& machine, Instant now);

// Looks into `uses`, which outlives it.
UseOf use_in(const UseByCounter& uses);
UsedToday used_today_in(const std::vector<CounterNow>& counters);

}  // namespace hw::service
