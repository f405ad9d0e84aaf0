#pragma once
// What the demo's people did before the demo began: the rounds of the last weeks walked, and each other task done
// once, so long ago that most are in hand, some are coming, a few are due and very few overdue.

#include "src/service/records.h"
#include "src/simulate/demo_use.h"

namespace hw::simulate {

// The entries of one machine, in no order. `seed` decides who did what when.
std::vector<service::Entry> demo_entries(const service::MachineRecord& machine, const service::ShopRecord& shop,
                                         const DemoUse& use, std::uint64_t seed, Instant now);

}  // namespace hw::simulate
