#pragma once
// A token for the tests' own requests, as a lead's program has one; programs may enter in any name.

#include <filesystem>
#include <string>

#include <fmt/format.h>

#include "libs/values/assert.h"
#include "src/storage/grants.h"

namespace hw::shop {

// The token alone; empty where the folder has no shop.
inline std::string token_for(const std::filesystem::path& folder, access::Role role = access::Role::lead,
                             std::optional<service::MachineKeys> machines = {}) {
  service::Grant grant{.kind = "token", .name = "the tests", .role = role, .machines = std::move(machines)};
  grant.made_at = Instant::from_millis(0);
  grant.ends_at = *parse_instant("2200-01-01T00:00:00Z");
  const auto secret = storage::leave_grant(folder, grant);
  return secret.value_or("");
}

// "Authorization: Bearer ...\r\n"; empty where the folder has no shop.
inline std::string let_in(const std::filesystem::path& folder, access::Role role = access::Role::lead,
                          std::optional<service::MachineKeys> machines = {}) {
  const std::string token = token_for(folder, role, std::move(machines));
  return token.empty() ? "" : fmt::format("Authorization: Bearer {}\r\n", token);
}

}  // namespace hw::shop
