#pragma once
// What the demo's people found at the machines: open and settled, one that nobody owns, one overdue, one with a photo,
// one that says to stop the machine. All of it is invented.

#include <vector>

#include "src/service/records.h"
#include "src/simulate/demo_use.h"

namespace hw::simulate {

struct DemoFindings {
  std::vector<service::Entry> entries;  // in no order
  std::vector<service::Photo> photos;
};

// Those of one machine; of most there are none. `seed` decides the ids.
DemoFindings demo_findings(const service::MachineRecord& machine, const service::ShopRecord& shop, const DemoUse& use,
                           std::uint64_t seed, Instant now);

}  // namespace hw::simulate
