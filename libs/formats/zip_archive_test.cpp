#include "libs/formats/zip_archive.h"

#include "libs/formats/zip_making.h"
#include "libs/formats/zip_making_test.h"

namespace hw::formats {
namespace {

Result<std::string> text_of(const ZipArchive& archive, const std::string& name) {
  HW_TAKE(file, archive.file(name));
  return read_all(*file, 1 << 20);
}

TEST(ZipArchive, GivesEachFileByItsName) {
  const std::string bytes = zip_of({{"a.txt", "one"}, {"folder/B.txt", std::string(100'000, 'b')}});
  const auto archive = ZipArchive::open(bytes, 1 << 20).value();
  EXPECT_EQ(text_of(archive, "a.txt"), "one");
  EXPECT_EQ(text_of(archive, "FOLDER/b.txt")->size(), 100'000u) << "capitals do not count";
  EXPECT_FALSE(archive.has("c.txt"));
  EXPECT_EQ(text_of(archive, "c.txt").error().code, ErrorCode::not_found);
}

TEST(ZipArchive, ReadsWhatWasMade) {
  const auto bytes = make_zip({{"a.txt", "one"}, {"folder/b.txt", std::string(100'000, 'b')}});
  ASSERT_TRUE(bytes) << bytes.error().message;
  const auto archive = ZipArchive::open(*bytes, 1 << 20).value();
  EXPECT_EQ(text_of(archive, "a.txt"), "one");
  EXPECT_EQ(text_of(archive, "folder/b.txt")->size(), 100'000u);
  EXPECT_EQ(make_zip({{"a.txt", "one"}, {"a.txt", "two"}}).error().code, ErrorCode::bad_input);
}

TEST(ZipArchive, CountsWhatUnpacksOverAllFiles) {
  const std::string bytes = zip_of({{"a", std::string(60'000, 'a')}, {"b", std::string(60'000, 'b')}});
  const auto archive = ZipArchive::open(bytes, 100'000).value();
  EXPECT_TRUE(text_of(archive, "a"));
  EXPECT_EQ(text_of(archive, "b").error().code, ErrorCode::too_large);
}

TEST(ZipArchive, WhatIsNoneOrHasAPasswordIsRefused) {
  EXPECT_FALSE(ZipArchive::open("PK\x03\x04 and no more", 100));
  const std::string bytes = zip_of({{"a", "one"}}, "secret");
  EXPECT_NE(text_of(ZipArchive::open(bytes, 100).value(), "a").error().message.find("password"), std::string::npos);
}

}  // namespace
}  // namespace hw::formats
