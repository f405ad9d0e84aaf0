#pragma once
// The rounds that the demo's people walked before the demo began, as the entries that walking them makes: the rounds of
// each shift, day and start-up of the last two weeks, those of each week of the last quarter. Most are whole, some half
// walked, some missed; of those that run now many are not begun yet.
//
// Readings wander about a value that suits their limits. On some machines the supply air falls towards its lower
// warning limit.

#include "src/service/records.h"
#include "src/simulate/demo_use.h"

namespace hw::simulate {

// The entries of one machine, in no order. `seed` decides who walked what when.
std::vector<service::Entry> demo_rounds(const service::MachineRecord& machine, const service::ShopRecord& shop,
                                        const DemoUse& use, std::uint64_t seed, Instant now);

}  // namespace hw::simulate
