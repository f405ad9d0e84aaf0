#pragma once
// An order of work as a job card tells it: energy state by energy state, each work with who does it from when.

#include "src/service/stop_card_views.h"
#include "src/service/stop_works.h"

namespace hw::service {

// The phases from production and back to it, one for each change of state, with the minutes that changes take
// (stop_plan.h: a change to the neighbouring state and the one back share its set-up). `tasks` are those of the works.
CardOrderView order_view(const OrderedWorks& ordered, const std::vector<PlannedTask>& tasks,
                         const catalogue::Stopping& stopping);

}  // namespace hw::service
