#include "libs/formats/byte_source.h"

#include <cstdlib>
#include <filesystem>
#include <fstream>

#include <gtest/gtest.h>
#include <lzma.h>
#include <unistd.h>
#include <zlib.h>

namespace hw::formats {
namespace {

std::string gzip(std::string_view text) {
  z_stream stream{};
  deflateInit2(&stream, 6, Z_DEFLATED, MAX_WBITS + 16, 8, Z_DEFAULT_STRATEGY);
  std::string packed(deflateBound(&stream, text.size()) + 64, '\0');
  stream.next_in = reinterpret_cast<Bytef*>(const_cast<char*>(text.data()));
  stream.avail_in = static_cast<uInt>(text.size());
  stream.next_out = reinterpret_cast<Bytef*>(packed.data());
  stream.avail_out = static_cast<uInt>(packed.size());
  EXPECT_EQ(deflate(&stream, Z_FINISH), Z_STREAM_END);
  packed.resize(stream.total_out);
  deflateEnd(&stream);
  return packed;
}

std::string xz(std::string_view text) {
  std::string packed(lzma_stream_buffer_bound(text.size()), '\0');
  std::size_t length = 0;
  EXPECT_EQ(
      lzma_easy_buffer_encode(6, LZMA_CHECK_CRC64, nullptr, reinterpret_cast<const std::uint8_t*>(text.data()),
                              text.size(), reinterpret_cast<std::uint8_t*>(packed.data()), &length, packed.size()),
      LZMA_OK);
  packed.resize(length);
  return packed;
}

std::string some_text() {
  std::string text;
  for (int i = 0; i < 20'000; ++i) text += std::to_string(i * 7919) + "|execution|ACTIVE\n";
  return text;
}

// Gives one byte at a time, as a slow network does.
class Dripping : public ByteSource {
 public:
  explicit Dripping(std::string bytes) : bytes_(std::move(bytes)) {}
  Result<std::size_t> read(std::span<char> into) override {
    if (at_ == bytes_.size()) return 0;
    into[0] = bytes_[at_++];
    return 1;
  }
  const std::string& name() const override { return name_; }

 private:
  std::string bytes_;
  std::string name_ = "drip";
  std::size_t at_ = 0;
};

Result<std::string> unpack(std::string_view packed, std::uint64_t bytes_max = no_byte_limit) {
  auto source = unpacked(memory_source(packed, "log"), bytes_max);
  if (!source) return refuse(source.error());
  return read_all(**source, std::size_t{1} << 32);
}

TEST(ByteSource, GzipAndXzAreRecognisedByTheirFirstBytesAndReadLikePlainText) {
  const std::string text = some_text();
  EXPECT_EQ(unpack(text), text);
  EXPECT_EQ(unpack(gzip(text)), text);
  EXPECT_EQ(unpack(xz(text)), text);
  for (const std::string& few : {std::string(), std::string("x"), std::string("\x1f"), std::string("\xfd\x37zX")}) {
    EXPECT_EQ(unpack(few), few);
    EXPECT_EQ(unpack(gzip(few)), few);
    EXPECT_EQ(unpack(xz(few)), few);
  }
}

TEST(ByteSource, MembersOneAfterTheOtherReadAsOne) {
  EXPECT_EQ(unpack(gzip("one ") + gzip("") + gzip("two")), "one two");
  EXPECT_EQ(unpack(xz("one ") + xz("") + xz("two")), "one two");
}

TEST(ByteSource, PackedBytesMayComeOneAtATime) {
  for (const std::string& packed : {gzip("one ") + gzip("two"), xz("one ") + xz("two"), std::string("one two")}) {
    auto source = unpacked(std::make_unique<Dripping>(packed));
    ASSERT_TRUE(source.has_value());
    EXPECT_EQ(read_all(**source, 100), "one two");
  }
}

TEST(ByteSource, EveryCutOfPackedDataIsRefusedWithTheByteWhereItEnds) {
  for (const std::string& packed : {gzip("some text that is cut"), xz("some text that is cut")}) {
    for (std::size_t length = 6; length < packed.size(); ++length) {
      const auto text = unpack(packed.substr(0, length));
      ASSERT_FALSE(text.has_value()) << length;
      EXPECT_EQ(text.error().code, ErrorCode::bad_input);
      EXPECT_NE(text.error().message.find("log: cut off"), std::string::npos) << text.error().message;
      EXPECT_NE(text.error().message.find("byte " + std::to_string(length)), std::string::npos) << text.error().message;
    }
  }
}

TEST(ByteSource, DamagedDataIsRefusedByItsCheckSum) {
  for (std::string packed : {gzip(some_text()), xz(some_text())}) {
    packed[packed.size() / 2] = static_cast<char>(packed[packed.size() / 2] ^ 0x10);
    const auto text = unpack(packed);
    ASSERT_FALSE(text.has_value());
    EXPECT_NE(text.error().message.find("log: damaged"), std::string::npos) << text.error().message;
    EXPECT_NE(text.error().message.find("at byte "), std::string::npos) << text.error().message;
  }
}

TEST(ByteSource, WhatFollowsPackedDataAndIsNoneIsRefused) {
  for (const std::string& packed : {gzip("text"), xz("text")}) {
    const auto text = unpack(packed + "something else altogether");
    ASSERT_FALSE(text.has_value());
    EXPECT_NE(text.error().message.find("damaged"), std::string::npos) << text.error().message;
  }
}

TEST(ByteSource, ABombStopsAtTheLimitOfWhatComesOut) {
  const std::string bomb = gzip(std::string(50'000'000, '0'));
  EXPECT_LT(bomb.size(), 60'000U);
  const auto text = unpack(bomb, 1'000'000);
  ASSERT_FALSE(text.has_value());
  EXPECT_EQ(text.error().code, ErrorCode::too_large);
  EXPECT_EQ(unpack(gzip("12345"), 5), "12345");
  EXPECT_FALSE(unpack("123456", 5).has_value());
}

TEST(ByteSource, MissingFilesAndFoldersAreRefusedByName) {
  const auto missing = open_file("/nowhere/at/all.gz");
  ASSERT_FALSE(missing.has_value());
  EXPECT_EQ(missing.error().code, ErrorCode::not_found);
  EXPECT_NE(missing.error().message.find("/nowhere/at/all.gz"), std::string::npos);
  const auto folder = open_file("/tmp");
  ASSERT_FALSE(folder.has_value());
  EXPECT_NE(folder.error().message.find("folder"), std::string::npos);
}

TEST(ByteSource, AFileIsOpenedByItsContentAndDashIsStandardInput) {
  std::string folder = testing::TempDir() + "byte_source_XXXXXX";
  ASSERT_NE(::mkdtemp(folder.data()), nullptr);
  const std::string path = folder + "/named_like_text.txt";
  std::ofstream(path, std::ios::binary) << gzip("from a file");
  auto source = open_file(path);
  ASSERT_TRUE(source.has_value());
  EXPECT_EQ((*source)->name(), path);
  EXPECT_EQ(read_all(**source, 100), "from a file");

  ASSERT_NE(std::freopen(path.c_str(), "rb", stdin), nullptr);
  auto input = open_file("-");
  ASSERT_TRUE(input.has_value());
  EXPECT_EQ((*input)->name(), "standard input");
  EXPECT_EQ(read_all(**input, 100), "from a file");
  std::filesystem::remove_all(folder);
}

}  // namespace
}  // namespace hw::formats
