#pragma once
// One task of a machine as the planning of stops takes it: what the figures rest on is told in docs/methods/plan.md.

#include "src/plan/instance.h"
#include "src/proposal/shop_ahead.h"

namespace hw::proposal {

// What an hour costs in which the machine stands while the plant works.
double standing_of(const ShopAhead& shop, const MachineAhead& machine);

// Whether it is known when it falls due, within ten years.
bool has_dates(const TaskAhead& task);

// For a plan of `days`. What has no dates loses nothing by being early or late and is never due.
plan::Task plan_task(const ShopAhead& shop, const MachineAhead& machine, const TaskAhead& task, int days);

}  // namespace hw::proposal
