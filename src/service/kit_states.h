#pragma once
// Whether the kits of agreed stops are ready, kept for whoever looks at every machine each second.

#include <cstdint>
#include <map>
#include <mutex>
#include <optional>
#include <string>
#include <string_view>

#include "libs/values/local_date.h"

namespace hw::service {

class OpenShop;

// For several threads at once.
class KitStates {
 public:
  // ready, coming, short, not known; nothing where the stores keep no part, or for what is no agreed stop. The caller
  // holds a lock on the shop.
  std::optional<std::string> of(const OpenShop& shop, std::string_view stop, LocalDate today);

 private:
  std::mutex mutex_;
  std::uint64_t stores_version_ = 0;
  std::uint64_t tasks_version_ = 0;
  LocalDate on_;
  std::map<std::string, std::string, std::less<>> states_;
};

}  // namespace hw::service
