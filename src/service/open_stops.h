#pragma once
// The agreed stops of a machine, in memory for whoever looks at the machine every second.

#include "src/service/open_shop.h"
#include "src/service/stop_views.h"

namespace hw::service {

// Takes over what the store has; what shows the machine is to show it anew. A machine that the shop does not have is
// left out. The caller holds no lock.
Result<void> reload_stops(OpenShop& shop, std::string_view machine);

// An agreed stop with its tasks as they are now, another with its tasks as they were. The caller holds a lock.
StopView view_of(const OpenShop& shop, const Stop& stop);

// The first agreed stop of the machine that is not over. The caller holds a lock.
std::optional<NextStopView> next_stop(const OpenShop& shop, const OpenMachine& machine, Instant now);

}  // namespace hw::service
