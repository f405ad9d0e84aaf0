#include "libs/formats/new_file.h"

#include <cstdlib>
#include <fstream>

#include <gtest/gtest.h>

namespace hw::formats {
namespace {

namespace fs = std::filesystem;

class NewFileTest : public testing::Test {
 protected:
  NewFileTest() {
    std::string form = (fs::temp_directory_path() / "hw_new_file_XXXXXX").string();
    folder = ::mkdtemp(form.data());
  }
  ~NewFileTest() override { fs::remove_all(folder); }
  std::size_t file_count() const {
    return static_cast<std::size_t>(std::distance(fs::directory_iterator(folder), fs::directory_iterator()));
  }
  std::string text_of(const fs::path& file) const {
    std::ifstream in(file);
    return {std::istreambuf_iterator<char>(in), {}};
  }
  fs::path folder;
};

TEST_F(NewFileTest, TakesItsPlaceWholeAndForItsOwnerOnly) {
  const fs::path file = folder / "copy";
  auto made = NewFile::begin(file);
  ASSERT_TRUE(made) << made.error().message;
  EXPECT_TRUE(made->add("whole"));
  EXPECT_TRUE(made->close());
  EXPECT_FALSE(fs::exists(file));
  EXPECT_EQ(text_of(made->path()), "whole");
  EXPECT_TRUE(made->keep());
  EXPECT_EQ(text_of(file), "whole");
  EXPECT_EQ(fs::status(file).permissions(), fs::perms::owner_read | fs::perms::owner_write);
  EXPECT_EQ(file_count(), 1u);
}

TEST_F(NewFileTest, WhatIsNotKeptLeavesNothing) {
  {
    auto made = NewFile::begin(folder / "copy");
    EXPECT_TRUE(made->add("half"));
    EXPECT_EQ(file_count(), 1u);
  }
  EXPECT_EQ(file_count(), 0u);
}

TEST_F(NewFileTest, NeverTakesThePlaceOfAnother) {
  std::ofstream(folder / "copy") << "there";
  EXPECT_EQ(NewFile::begin(folder / "copy").error().code, ErrorCode::conflict);
  auto late = NewFile::begin(folder / "late");
  EXPECT_TRUE(late->close());
  std::ofstream(folder / "late") << "meanwhile";
  EXPECT_EQ(late->keep().error().code, ErrorCode::conflict);
  EXPECT_EQ(text_of(folder / "late"), "meanwhile");
  EXPECT_EQ(NewFile::begin(folder / "none" / "copy").error().code, ErrorCode::not_found);
}

}  // namespace
}  // namespace hw::formats
