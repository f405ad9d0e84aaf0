#include "src/terminal/admin_command.h"

#include <gtest/gtest.h>
#include <stdlib.h>

#include "src/terminal/called_test.h"
#include "src/terminal/data_folder.h"
#include "src/terminal/token_command.h"

namespace hw::terminal {
namespace {

struct Left {
  std::string data;
  service::Grant grant;
};

Called call_leaving(std::vector<std::string> words, Left& left) {
  Entrances entrances;
  entrances.leave_grant = [&](const std::string& data, const service::Grant& grant) -> Result<std::string> {
    left = {data, grant};
    return std::string{"the-secret"};
  };
  entrances.accounts = [](const std::string&) -> Result<std::vector<service::Account>> {
    return std::vector<service::Account>{
        {.name = "Ada", .role = access::Role::technician, .made_by = "Bea", .made_at = {}}};
  };
  entrances.permissions = []() -> Result<access::PermissionTable> {
    return access::PermissionTable{{{"look", {access::Role::viewer}}, {"admit", {access::Role::lead}}}};
  };
  entrances.look_into = [](const std::string&) -> Result<service::ShopWithMachines> {
    service::ShopWithMachines shop;
    shop.machines.emplace_back().machine.key = "m1";
    return shop;
  };
  return call(std::move(words), entrances);
}

TEST(AdminCommand, PrintsALinkThatIsGoodForThirtyMinutes) {
  Left left;
  const Called called = call_leaving({"admin", "create", "Ilka", "--role", "viewer", "--data", "d"}, left);
  EXPECT_EQ(called.exit_status, 0) << called.errors;
  EXPECT_EQ(called.output.find("http://127.0.0.1:8470/enter#the-secret\n"), 0U) << called.output;
  EXPECT_EQ(left.data, "d");
  EXPECT_EQ(left.grant.name, "Ilka");
  EXPECT_EQ(left.grant.role, access::Role::viewer);
  EXPECT_EQ(left.grant.ends_at, left.grant.made_at + Duration::seconds(30 * 60));
}

TEST(AdminCommand, ResetIsForAnAccountThatIsThere) {
  Left left;
  EXPECT_EQ(call_leaving({"admin", "reset", "Ada", "--data", "d"}, left).exit_status, 0);
  EXPECT_EQ(left.grant.kind, "reset");
  EXPECT_EQ(left.grant.role, access::Role::technician);
  expect_refused(call_leaving({"admin", "reset", "Bea", "--data", "d"}, left), 1, "Bea");
}

TEST(AdminCommand, CalledWronglySaysWhatWouldBeRight) {
  Left left;
  expect_refused(call_leaving({"admin"}, left), 2, "subcommand");
  expect_refused(call_leaving({"admin", "create", "--data", "d"}, left), 2, "name");
  expect_refused(call_leaving({"admin", "create", "Ilka", "--role", "boss", "--data", "d"}, left), 2, "technician");
  expect_refused(call_leaving({"admin", "create", "Ilka", "--role", "outside", "--data", "d"}, left), 2, "Access");
  expect_refused(call_leaving({"admin", "create", " ", "--data", "d"}, left), 1, "NAME: 1 to 60");
}

TEST(TokenCommand, PrintsTheTokenAlone) {
  Left left;
  const Called called = call_leaving({"token", "create", "--role", "viewer", "--expires", "90", "--data", "d"}, left);
  EXPECT_EQ(called.output, "the-secret\n") << called.errors;
  EXPECT_EQ(left.grant.kind, "token");
  EXPECT_EQ(left.grant.ends_at, left.grant.made_at + Duration::hours(90 * 24));
}

TEST(TokenCommand, RefusesWhatNoProgramHasAndMachinesThatAreNotThere) {
  Left left;
  const auto create = [&](std::vector<std::string> more) {
    std::vector<std::string> words{"token", "create", "--expires", "1", "--data", "d"};
    words.insert(words.end(), more.begin(), more.end());
    return call_leaving(std::move(words), left);
  };
  expect_refused(create({"--role", "lead", "--only", "admit"}), 1, "admit");
  expect_refused(create({"--role", "viewer", "--only", "shape"}), 1, "shape");
  expect_refused(create({"--role", "outside"}), 1, "machines");
  expect_refused(create({"--role", "outside", "--machines", "m9"}), 1, "m9");
  EXPECT_EQ(create({"--role", "outside", "--machines", "m1"}).exit_status, 0);
  expect_refused(call_leaving({"token", "create", "--role", "viewer", "--expires", "0", "--data", "d"}, left), 2, "0");
}

TEST(DataFolder, IsTheEnvironmentsWhereNoneIsSaid) {
  Left left;
  ::setenv("HOURWRIGHT_DATA", "/srv/shop", 1);
  EXPECT_EQ(call_leaving({"admin", "create", "Ilka"}, left).exit_status, 0);
  EXPECT_EQ(left.data, "/srv/shop");
  ::unsetenv("HOURWRIGHT_DATA");
  EXPECT_EQ(call_leaving({"admin", "create", "Ilka"}, left).exit_status, 0);
  EXPECT_EQ(left.data, ".");
}

}  // namespace
}  // namespace hw::terminal
