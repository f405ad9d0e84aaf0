#include "src/terminal/config_command.h"

#include <fstream>

#include <gmock/gmock.h>

#include "libs/sql/test_folder.h"
#include "src/terminal/called_test.h"

namespace hw::terminal {
namespace {

using testing::HasSubstr;

TEST(ConfigCommand, ShowsEachSettingAndWhereItComesFrom) {
  const sql::TestFolder folder;
  const std::string file = (folder.path() / "h.toml").string();
  std::ofstream(file) << "data = \"/srv/shop\"\ndatabase = \"postgresql://me:secret@db/shop\"\n";
  const Called shown = call({"config", "show", "--config", file, "--origin"});
  EXPECT_EQ(shown.exit_status, 0) << shown.errors;
  EXPECT_THAT(shown.output, HasSubstr("data = \"/srv/shop\""));
  EXPECT_THAT(shown.output, HasSubstr("h.toml, line 1"));
  EXPECT_THAT(shown.output, HasSubstr("store-every = \"5\""));
  EXPECT_THAT(shown.output, HasSubstr("# default"));
  EXPECT_THAT(shown.output, HasSubstr("postgresql://me:...@db/shop")) << "a password is nobody's business";
  EXPECT_THAT(call({"config", "show", "--config", file, "--json"}).output, HasSubstr("\"origin\":\"default\""));
  EXPECT_THAT(call({"config", "show", "edge", "--config", file}).output, HasSubstr("send-every = \"10\""));
}

TEST(ConfigCommand, AFileThatIsNotThereIsRefused) {
  expect_refused(call({"config", "show", "--config", "/no/such.toml"}), 1, "/no/such.toml");
  expect_refused(call({"config", "show", "shop"}), 2, "shop");
}

}  // namespace
}  // namespace hw::terminal
