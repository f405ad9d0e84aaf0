#include "src/web/site_files.h"

#include <fstream>

#include <gmock/gmock.h>

#include "libs/sql/test_folder.h"
#include "tests/places/places.h"

namespace hw::web {
namespace {

namespace fs = std::filesystem;

TEST(SiteFiles, AreTheContractItsTableAndTheApp) {
  const sql::TestFolder share;
  fs::create_directory(share.path() / "api");
  EXPECT_FALSE(read_site_files(share.path(), [](std::string_view) {})) << "nothing works without the contract";
  fs::copy(in_source("api/openapi.yaml"), share.path() / "api" / "openapi.yaml");
  std::string told;
  const auto alone = read_site_files(share.path(), [&](std::string_view says) { told = says; });
  ASSERT_TRUE(alone);
  EXPECT_EQ((*alone)->app_files(), 0u);
  EXPECT_THAT(told, testing::HasSubstr("the API is served alone"));
  fs::create_directories(share.path() / "app" / "dist");
  std::ofstream(share.path() / "app" / "dist" / "index.html") << "<!doctype html>";
  const auto with_app = read_site_files(share.path(), [](std::string_view says) { FAIL() << says; });
  ASSERT_TRUE(with_app);
  EXPECT_EQ((*with_app)->app_files(), 1u);
  EXPECT_THAT(*(*with_app)->contract, testing::StartsWith("{"));
}

}  // namespace
}  // namespace hw::web
