#include "libs/formats/gzip_writer.h"

#include <gtest/gtest.h>

#include "libs/formats/byte_source.h"

namespace hw::formats {
namespace {

std::string packed_in_pieces(std::string_view text, std::size_t piece) {
  std::string packed;
  GzipWriter writer([&](std::string_view bytes) -> Result<void> {
    packed += bytes;
    return {};
  });
  for (; !text.empty(); text.remove_prefix(std::min(piece, text.size()))) {
    EXPECT_TRUE(writer.add(text.substr(0, piece)));
  }
  EXPECT_TRUE(writer.end());
  return packed;
}

std::string unpacked_text(std::string_view packed) {
  auto source = unpacked(memory_source(packed));
  return source ? read_all(**source, 10'000'000).value_or("refused") : source.error().message;
}

std::string much_text() {
  std::string text;
  for (int i = 0; i < 200'000; ++i) text += static_cast<char>(std::int64_t{i} * i % 251);
  return text;
}

TEST(GzipWriter, UnpacksToWhatWasAddedInWhateverPieces) {
  for (const std::size_t piece : {std::size_t{7919}, std::size_t{200'000}}) {
    EXPECT_EQ(unpacked_text(packed_in_pieces(much_text(), piece)), much_text());
  }
  EXPECT_EQ(unpacked_text(packed_in_pieces("", 1)), "");
}

TEST(GzipWriter, WhatItsTakerRefusesItRefuses) {
  GzipWriter writer([](std::string_view) -> Result<void> { return refuse(ErrorCode::disk_full, "no room"); });
  const auto added = writer.add(much_text());
  ASSERT_FALSE(added);
  EXPECT_EQ(added.error().message, "no room");
}

}  // namespace
}  // namespace hw::formats
