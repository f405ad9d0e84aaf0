#include "src/terminal/workbook_command.h"

#include <filesystem>
#include <fstream>
#include <sstream>

#include <gmock/gmock.h>

#include "libs/sql/test_folder.h"
#include "src/catalogue/shop_workbook.h"
#include "src/terminal/called_test.h"

namespace hw::terminal {
namespace {

TEST(WorkbookCommand, WritesAShopsFileAsAWorkbookThatReadsBack) {
  const sql::TestFolder folder;
  const std::string out = (folder.path() / "shop.xlsx").string();
  const Called called = call({"workbook", out, "--shop", in_source("demo/shop.toml")});
  EXPECT_EQ(called.exit_status, 0) << called.errors;
  EXPECT_THAT(called.output, testing::HasSubstr("with 24 machines"));
  std::ifstream in(out, std::ios::binary);
  std::ostringstream bytes;
  bytes << in.rdbuf();
  EXPECT_EQ(catalogue::parse_shop_workbook(bytes.str(), out)->machines.size(), 24u);
  expect_refused(call({"workbook", out, "--shop", in_source("demo/shop.toml")}), 1, "shop.xlsx");
  expect_refused(call({"workbook", out + "2", "--shop", "/no/such.toml"}), 1, "/no/such.toml");
}

}  // namespace
}  // namespace hw::terminal
