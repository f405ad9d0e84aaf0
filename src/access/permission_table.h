#pragma once
// Which roles have which permission, as the contract's table says.

#include <map>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "src/access/role.h"

namespace hw::access {

// Beside those of the table: what everybody may, and what everybody may who has signed in.
inline constexpr std::string_view open_permission = "open";
inline constexpr std::string_view self_permission = "self";
// What only people may, never a program.
inline constexpr std::string_view admit_permission = "admit";

struct PermissionTable {
  std::map<std::string, std::set<Role>, std::less<>> roles;  // by permission
  std::set<Role> office = {};  // who works at a desk: of whom the plant may demand a second factor

  // False for a permission that is not there.
  bool may(Role role, std::string_view permission) const;
  // In the order of their words.
  std::vector<std::string> permissions_of(Role role) const;
};

}  // namespace hw::access
