#pragma once
// What the demo's people did to some parts in the years before: each replaced again and again, with how it was found.
// The parts' true lives are invented, and so is that some intervals are too long for them and some too short.

#include <vector>

#include "src/service/records.h"
#include "src/simulate/demo_use.h"

namespace hw::simulate {

// Entries "task done" of one machine, before the last one of each part that is among `done`, which says then how the
// part was found. `seed` decides the lives.
std::vector<service::Entry> demo_lives(const service::MachineRecord& machine, const service::ShopRecord& shop,
                                       const DemoUse& use, std::vector<service::Entry>& done, std::uint64_t seed,
                                       Instant now);

}  // namespace hw::simulate
