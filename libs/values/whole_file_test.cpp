#include "libs/values/whole_file.h"

#include <filesystem>
#include <fstream>

#include <gtest/gtest.h>
#include <stdlib.h>

namespace hw {
namespace {

namespace fs = std::filesystem;

TEST(WholeFile, IsReplacedAtOnceAndNothingElseIsLeft) {
  std::string form = (fs::temp_directory_path() / "hw_whole_XXXXXX").string();
  ASSERT_NE(::mkdtemp(form.data()), nullptr);
  const fs::path folder = form;
  ASSERT_TRUE(write_whole_file(folder / "a", "one", ReadableBy::owner));
  ASSERT_TRUE(write_whole_file(folder / "a", "two", ReadableBy::owner));
  EXPECT_EQ(*read_whole_file(folder / "a"), "two");
  EXPECT_EQ(std::distance(fs::directory_iterator(folder), {}), 1);
  EXPECT_EQ(write_whole_file(folder / "none" / "a", "x", ReadableBy::owner).error().code, ErrorCode::disk_full);
  fs::create_directory(folder / "b");
  EXPECT_FALSE(write_whole_file(folder / "b", "x", ReadableBy::owner));  // a folder in its place
  EXPECT_EQ(std::distance(fs::directory_iterator(folder), {}), 2);
  std::ofstream(folder / "large") << std::string(1024 * 1024 + 1, 'x');
  EXPECT_EQ(read_whole_file(folder / "large").error().code, ErrorCode::too_large);
  EXPECT_EQ(read_whole_file(folder / "b").error().code, ErrorCode::not_found);
  fs::remove_all(folder);
}

}  // namespace
}  // namespace hw
