#include "src/access/role.h"

#include "libs/values/assert.h"

namespace hw::access {

std::string_view word_of(Role role) {
  switch (role) {
    case Role::outside:
      return "outside";
    case Role::viewer:
      return "viewer";
    case Role::machine_operator:
      return "operator";
    case Role::technician:
      return "technician";
    case Role::lead:
      return "lead";
  }
  HW_ASSERT(false, "a role without a word");
}

Result<Role> parse_role(std::string_view word) {
  for (const Role role : all_roles) {
    if (word_of(role) == word) return role;
  }
  return refuse(ErrorCode::bad_input, "\"{}\" is no role; there are outside, viewer, operator, technician and lead",
                word.substr(0, 40));
}

}  // namespace hw::access
