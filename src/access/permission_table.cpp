#include "src/access/permission_table.h"

namespace hw::access {

bool PermissionTable::may(Role role, std::string_view permission) const {
  const auto found = roles.find(permission);
  return found != roles.end() && found->second.contains(role);
}

std::vector<std::string> PermissionTable::permissions_of(Role role) const {
  std::vector<std::string> permissions;
  for (const auto& [permission, having] : roles) {
    if (having.contains(role)) permissions.push_back(permission);
  }
  return permissions;
}

}  // namespace hw::access
