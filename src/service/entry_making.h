#pragma once
// What every edit does alike: is it a repeat, and what does its entry hold.

#include "src/service/edits.h"
#include "src/service/open_shop.h"

namespace hw::service {

// The entry that an id already made: the same edit was sent twice. Refuses (conflict) an id that made another kind of
// entry or one of another machine.
Result<std::optional<Entry>> repeated(const OpenShop& shop, std::string_view id, std::string_view kind,
                                      std::string_view machine);

// The task of an open machine. Refuses (not_found) where there is none.
Result<TaskRecord*> find_task(OpenMachine& machine, std::string_view key);

// An entry of now with every counter's total. The caller holds a lock.
Entry new_entry(const OpenMachine& machine, std::string_view kind, std::string_view id, std::string_view by,
                Instant now);

// Writes one entry in a transaction of its own.
Result<void> keep(Store& store, const Entry& entry);

}  // namespace hw::service
