#pragma once
// What a stop really used of each part that is named, against what was taken for it: the rest comes back, what was not
// taken before is taken. What was taken of a part that is not named stays taken.

#include "src/service/stop_edits.h"
#include "src/service/stores_entries.h"

namespace hw::service {

// Refuses (bad_input, naming the field) what no movement can hold, and parts that are not kept.
Result<void> check(const UsedParts& used);

// The entry of what is moved; nothing where all that was taken was used and nothing else. The caller holds a lock.
Result<std::optional<Entry>> used_entry(const OpenShop& shop, const Stop& stop, const StopClose& edit, Instant now);

}  // namespace hw::service
