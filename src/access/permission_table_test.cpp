#include "src/access/permission_table.h"

#include <gtest/gtest.h>

#include "src/access/role.h"

namespace hw::access {
namespace {

TEST(Role, HasAWordThatReadsBack) {
  for (const Role role : all_roles) EXPECT_EQ(*parse_role(word_of(role)), role);
  EXPECT_EQ(word_of(Role::machine_operator), "operator");
  EXPECT_FALSE(parse_role("Lead"));
  EXPECT_FALSE(parse_role(""));
}

TEST(PermissionTable, SaysNoToWhatIsNotInIt) {
  const PermissionTable table{{{"look", {Role::viewer, Role::lead}}, {"shape", {Role::lead}}}};
  EXPECT_TRUE(table.may(Role::viewer, "look"));
  EXPECT_FALSE(table.may(Role::viewer, "shape"));
  EXPECT_FALSE(table.may(Role::lead, "unheard of"));
  EXPECT_FALSE(table.may(Role::lead, ""));
  EXPECT_EQ(table.permissions_of(Role::lead), (std::vector<std::string>{"look", "shape"}));
  EXPECT_TRUE(table.permissions_of(Role::outside).empty());
}

}  // namespace
}  // namespace hw::access
