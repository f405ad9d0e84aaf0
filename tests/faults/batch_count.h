#pragma once
// What has to hold of counts, whatever happened to whoever made them.

#include "src/counters/tally.h"
#include "tests/faults/scene.h"
#include "tests/faults/shop_folder.h"

namespace hw::faults {

// The tally of that counter; null where the machine has none.
const counters::Tally* find(const KeptMachine& kept, const counters::CounterKey& key);

// Expects of the scene's machine with that index, as of the scene's end, the machine counters and each spindle's and
// axis's own hours to be those of a count over the whole list at once.
void expect_as_in_batch(const Scene& scene, std::uint32_t machine, const KeptMachine& kept);

// Expects true + false + unknown of every counter to be the time that has passed since it began.
void expect_conserved(const KeptShop& kept);

}  // namespace hw::faults
