#include "src/service/kit_states.h"

#include "src/service/stop_kits.h"

namespace hw::service {

std::optional<std::string> KitStates::of(const OpenShop& shop, std::string_view stop, LocalDate today) {
  if (shop.stores().is_empty()) return std::nullopt;
  const std::lock_guard turn(mutex_);
  std::uint64_t tasks_version = 0;
  for (const auto& machine : shop.machines()) tasks_version += machine->tasks_version;
  const bool is_known = stores_version_ == shop.stores().version() && tasks_version_ == tasks_version && on_ == today;
  if (!is_known) {
    states_.clear();
    for (const StopKit& kit : stop_kits(shop, today).kits) states_[kit.stop->id] = state_of(kit);
    stores_version_ = shop.stores().version();
    tasks_version_ = tasks_version;
    on_ = today;
  }
  const auto there = states_.find(stop);
  return there == states_.end() ? std::nullopt : std::optional{there->second};
}

}  // namespace hw::service
