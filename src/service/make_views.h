#pragma once
// From what is open in memory to what is told. The caller holds a lock on the shop.

#include "src/service/open_shop.h"
#include "src/service/round_standing.h"
#include "src/service/round_views.h"
#include "src/service/views.h"

namespace hw::service {

TaskView view_of(const OpenShop& shop, const OpenMachine& machine, const TaskRecord& record,
                 const CounterTotals& totals, Instant now);
EntryView view_of(const Entry& entry);
HourReadingView view_of(const HourReading& reading);
FeedView feed_view(const FeedStatus& feed);
std::vector<PointView> point_views(const MachineRecord& record);
// A turn without its answers.
TurnView turn_view(const RoundStanding& standing, const due::TurnStanding& turn);
// Where each of the machine's rounds stands in the turn that runs.
std::vector<RoundStandingView> standing_views(const OpenShop& shop, const OpenMachine& machine, Instant now);
FloorMachineView floor_view(const OpenShop& shop, const OpenMachine& machine, Instant now);

// "Operating hours"; for one item's counter with its label: "Spindle hours, Srpm".
std::string title_of(const counters::CounterKey& key);

}  // namespace hw::service
