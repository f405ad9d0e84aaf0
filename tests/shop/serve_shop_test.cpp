#include "src/web/serve_shop.h"

#include <fstream>

#include <gtest/gtest.h>

#include "libs/sql/test_folder.h"
#include "src/storage/open_store.h"
#include "tests/places/places.h"

namespace hw::web {
namespace {

Result<void> served(service::Store& store) {
  ServeOptions options;
  options.web.plain.port = 0;
  options.web.share = in_source();
  return serve_shop(
      store, options, [](const Readied&) { ADD_FAILURE() << "it listens"; }, [] {});
}

TEST(ServeShop, WithoutAShopIsRefused) {
  const sql::TestFolder folder;
  const auto store = std::move(*storage::open_store(folder.path()));
  const auto answer = served(*store);
  ASSERT_FALSE(answer);
  EXPECT_EQ(answer.error().code, ErrorCode::not_found);
}

TEST(ServeShop, ADatabaseThatIsDamagedUnderItIsRefusedInASentence) {
  const sql::TestFolder folder;
  const auto store = std::move(*storage::open_store(folder.path()));
  std::ofstream(folder.path() / "hourwright.db", std::ios::binary) << std::string(20'000, 'x');
  std::filesystem::remove(folder.path() / "hourwright.db-wal");
  const auto answer = served(*store);
  ASSERT_FALSE(answer);
  EXPECT_NE(answer.error().message.find("hourwright.db"), std::string::npos) << answer.error().message;
}

}  // namespace
}  // namespace hw::web
