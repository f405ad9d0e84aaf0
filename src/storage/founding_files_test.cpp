#include "src/storage/founding_files.h"

#include <fstream>

#include <gtest/gtest.h>

#include "libs/sql/test_folder.h"
#include "tests/places/places.h"

namespace hw::storage {
namespace {

TEST(FoundingFiles, TheDemosShopIsReadWithEverySetOfTheLibraryInOrder) {
  const std::filesystem::path source = in_source();
  const auto files = read_founding_files(source / "demo" / "shop.toml", source / "library");
  ASSERT_TRUE(files) << files.error().message;
  EXPECT_EQ(files->shop.machines.size(), 24u);
  ASSERT_EQ(files->sets.size(), 7u);
  for (std::size_t i = 1; i < files->sets.size(); ++i) EXPECT_LT(files->sets[i - 1].kind, files->sets[i].kind);
}

TEST(FoundingFiles, WhatIsMissingIsNamed) {
  const sql::TestFolder folder;
  const std::filesystem::path source = in_source();
  const auto no_shop = read_founding_files(folder.path() / "none.toml", source / "library");
  ASSERT_FALSE(no_shop);
  EXPECT_NE(no_shop.error().message.find("none.toml"), std::string::npos);
  const auto no_library = read_founding_files(source / "demo" / "shop.toml", folder.path() / "library");
  ASSERT_FALSE(no_library);
  EXPECT_EQ(no_library.error().code, ErrorCode::not_found);
  EXPECT_NE(no_library.error().message.find("library"), std::string::npos);
}

TEST(FoundingFiles, AMistakeInASetNamesItsFile) {
  const sql::TestFolder folder;
  std::ofstream(folder.path() / "loom.toml") << "format = \"hourwright-task-set-1\"\n";
  std::ofstream(folder.path() / "notes.md") << "not a set";
  const auto files = read_founding_files(in_source("demo/shop.toml"), folder.path());
  ASSERT_FALSE(files);
  EXPECT_NE(files.error().message.find("loom.toml"), std::string::npos) << files.error().message;
}

}  // namespace
}  // namespace hw::storage
