#pragma once
// What changing, withdrawing and closing a stop do alike. The caller holds the edit's turn and no other lock.

#include "src/service/entry_making.h"
#include "src/service/stop_views.h"

namespace hw::service {

// Refuses (not_found) an id that is no stop's.
Result<Stop> stored_stop(const OpenShop& shop, std::string_view id);

// Whether the edit was sent before; refuses (conflict) an id that was used for another stop or something else.
Result<bool> was_told_before(const OpenShop& shop, std::string_view id, std::string_view kind, const Stop& stop);

// Refuses (conflict) a stop that is closed or withdrawn; where a version is named, also one that was changed since.
Result<void> check_is_agreed(const Stop& stop);
Result<void> check_is_as_seen(const Stop& stop, int version);

// An entry about the stop; `seen`: whoever told it had looked at the stop as it is, so that it happened after it.
enum class Told { unseen, seen };
Result<Entry> entry_about(const OpenShop& shop, const Stop& stop, std::string_view kind, const Signature& signature,
                          Told told, Instant now);

// Takes over what the store has of the machine's stops, and shows this one.
Result<StopView> reload_and_show(OpenShop& shop, std::string_view id, std::string_view machine);

StopView shown_stop(const OpenShop& shop, const Stop& stop);

}  // namespace hw::service
