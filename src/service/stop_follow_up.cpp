#include "src/service/stop_follow_up.h"

#include <algorithm>

#include "libs/formats/enum_words.h"
#include "src/service/open_stops.h"

namespace hw::service {

Result<Stop> stored_stop(const OpenShop& shop, std::string_view id) {
  HW_TAKE(stop, shop.store().stop(id));
  if (!stop) return refuse(ErrorCode::not_found, Saying{"no-stop"}, "there is no stop {}", id.substr(0, 40));
  return *std::move(stop);
}

Result<bool> was_told_before(const OpenShop& shop, std::string_view id, std::string_view kind, const Stop& stop) {
  HW_TAKE(before, repeated(shop, id, {kind, stop.machine}));
  if (!before) return false;
  if (before->body.stop == stop.id) return true;
  return refuse(ErrorCode::conflict, id_used, "id: {} is the id of an entry about another stop; an id is used once",
                id);
}

Result<void> check_is_agreed(const Stop& stop) {
  if (stop.state == StopState::agreed) return {};
  return refuse(ErrorCode::conflict, Saying{"stop-closed", {{"date", print(stop.plan.on)}}},
                "the stop of {} is {} already", print(stop.plan.on), formats::print_word(stop.state));
}

Result<void> check_is_as_seen(const Stop& stop, int version) {
  HW_TRY(check_is_agreed(stop));
  if (version == stop.version) return {};
  return refuse(ErrorCode::conflict, Saying{"stop-changed", {{"date", print(stop.plan.on)}}},
                "the stop was changed meanwhile: it is at version {}, not {}; look again", stop.version, version);
}

Result<Entry> entry_about(const OpenShop& shop, const Stop& stop, std::string_view kind, const Signature& signature,
                          Told told, Instant now) {
  const auto lock = shop.look();
  HW_TAKE(machine, shop.find(stop.machine));
  HW_TAKE(entry, new_entry(shop, *machine, kind, signature, now));
  // A device's clock may be behind by more than the server can know.
  if (told == Told::seen) entry.happened_at = std::max(entry.happened_at, stop.changed_at);
  return std::move(entry);
}

StopView shown_stop(const OpenShop& shop, const Stop& stop) {
  const auto lock = shop.look();
  return view_of(shop, stop);
}

Result<StopView> reload_and_show(OpenShop& shop, std::string_view id, std::string_view machine) {
  HW_TRY(reload_stops(shop, machine));
  HW_TAKE(stop, stored_stop(shop, id));
  return shown_stop(shop, stop);
}

}  // namespace hw::service
