#pragma once
// The demo's stops: some closed in the weeks before, one withdrawn, some agreed for the days ahead, and one that is
// over and of which nobody has said yet how it went. All of it is invented.

#include <string_view>
#include <vector>

#include "src/service/records.h"
#include "src/simulate/demo_use.h"

namespace hw::simulate {

// The one that has a stop on a Saturday to come.
inline constexpr std::string_view demo_saturday_machine = "m07";

// The entries of one machine's stops, in no order; of most machines there are none. `done` are the machine's entries
// "task done": what is agreed are the tasks that are used up furthest by them. `seed` decides the ids.
std::vector<service::Entry> demo_stops(const service::MachineRecord& machine, const service::ShopRecord& shop,
                                       const DemoUse& use, const std::vector<service::Entry>& done, std::uint64_t seed,
                                       Instant now);

}  // namespace hw::simulate
