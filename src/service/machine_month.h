#pragma once
// All that a month was for one machine.

#include "src/service/month_standing.h"
#include "src/service/month_tasks.h"

namespace hw::service {

struct MachineMonth {
  month::MonthSums sums;
  MonthHours hours;
  MonthStanding standing;
  MonthTasks tasks;
};

// The caller holds no lock on the shop.
Result<MachineMonth> machine_month(const OpenShop& shop, const OpenMachine& machine, const MonthSpan& span,
                                   Instant now);

}  // namespace hw::service
