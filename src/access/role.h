#pragma once
// What somebody is in the shop as far as this program goes; what each may stands in the contract's table
// (permission_table.h).

#include <array>
#include <string_view>

#include "libs/values/result.h"

namespace hw::access {

enum class Role {
  outside,  // somebody of another firm, at some machines, until a day
  viewer,
  machine_operator,  // "operator"
  technician,
  lead,
};

inline constexpr std::array all_roles{Role::outside, Role::viewer, Role::machine_operator, Role::technician,
                                      Role::lead};

// The word of the contract: outside, viewer, operator, technician, lead.
std::string_view word_of(Role role);
// Refuses (bad_input) any other word.
Result<Role> parse_role(std::string_view word);

}  // namespace hw::access
