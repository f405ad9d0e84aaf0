#pragma once
// The services of a machine's kind, and which of them a stop is.

#include <string_view>
#include <vector>

#include "src/service/open_shop.h"
#include "src/service/stop.h"

namespace hw::service {

// None for a kind that has none.
std::vector<catalogue::KindService> services_of(const OpenShop& shop, std::string_view kind);

// The service of which these tasks are half or more, of those that the machine has; nothing where there is none. What
// it points at lives as long as the shop.
const catalogue::KindService* service_in(const OpenShop& shop, const MachineRecord& machine,
                                         const std::vector<PlannedTask>& tasks);

}  // namespace hw::service
