#pragma once
// The findings of a machine that are open, in memory for whoever looks at the machine every second.

#include "src/service/open_shop.h"
#include "src/service/views.h"

namespace hw::service {

// Takes over what the store has; what shows the machine is to show it anew. A machine that the shop does not have is
// left out. The caller holds no lock.
Result<void> reload_findings(OpenShop& shop, std::string_view machine);

FindingView view_of(const Finding& finding);

// "stop the machine", "watch": of each open finding, the most severe first. The caller holds a lock.
std::vector<std::string> severities_of(const OpenMachine& machine);

}  // namespace hw::service
