#include "src/web/access_table.h"

#include <gtest/gtest.h>

#include "tests/places/places.h"

namespace hw::web {
namespace {

constexpr std::string_view whole =
    R"({"x-permissions": {"look": {"roles": ["viewer", "lead"]}}, "x-office-roles": ["lead"],
  "paths": {"/a": {"parameters": [], "get": {"x-permission": "look"}, "post": {"x-permission": "open"}}}})";

std::string with(std::string_view what, std::string_view instead) {
  std::string text{whole};
  return text.replace(text.find(what), what.size(), instead);
}

TEST(AccessTable, IsReadFromTheContract) {
  const AccessTable table = *read_access_table(whole);
  EXPECT_EQ(table.permission_of.at({"GET", "/a"}), "look");
  EXPECT_EQ(table.permission_of.at({"POST", "/a"}), "open");
  EXPECT_TRUE(table.permissions.may(access::Role::viewer, "look"));
  EXPECT_FALSE(table.permissions.may(access::Role::technician, "look"));
  EXPECT_EQ(table.permissions.office, std::set{access::Role::lead});
}

TEST(AccessTable, AContractThatLeavesSomethingOpenIsRefused) {
  for (const auto& broken :
       {std::string{"{}"}, std::string{"no json"}, with(R"("x-permission": "look")", R"("y": 1)"),
        with(R"("x-permission": "look")", R"("x-permission": "lok")"), with(R"("viewer")", R"("guest")"),
        with(R"("roles")", R"("rolls")"), with("x-permissions", "permissions"), with("x-office-roles", "roles"),
        with(R"(["lead"])", R"(["boss"])")}) {
    ASSERT_FALSE(read_access_table(broken)) << broken;
  }
}

TEST(AccessTable, OfTheProgramsOwnContractIsWhole) {
  const auto contract = read_contract(in_source());
  ASSERT_TRUE(contract) << contract.error().message;
  const auto table = read_access_table(*contract);
  ASSERT_TRUE(table) << table.error().message;
  EXPECT_GT(table->permission_of.size(), 100U);
  EXPECT_FALSE(read_contract("/nowhere"));
}

}  // namespace
}  // namespace hw::web
