#pragma once
// What a machine uses up for each hour that it works, by what was filled in: way oil over the hours of the axes,
// coolant over those of cutting, hydraulic oil over those of power (src/condition/use_rate.h). The caller holds a lock
// on the shop.

#include "src/condition/use_rate.h"
#include "src/service/open_shop.h"
#include "src/service/reading_views.h"

namespace hw::service {

// What a task fills in, by the assembly that it looks after: coolant, hydraulics, lubrication; others are `other`.
condition::Consumable consumable_of(const catalogue::Task& task);

// One line for each task that tops up and is not retired.
Result<std::vector<UseLineView>> use_lines(const OpenShop& shop, const OpenMachine& machine);

}  // namespace hw::service
