#pragma once
// A draft as a plan with names, in the order of machines and slots.

#include "src/plan/draft.h"
#include "src/plan/stop_plan.h"

namespace hw::plan {

// Stops and running jobs; without claims.
StopPlan plan_of(const Instance& instance, const Draft& draft);

}  // namespace hw::plan
