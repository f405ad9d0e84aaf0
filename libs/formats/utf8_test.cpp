#include "libs/formats/utf8.h"

#include <gtest/gtest.h>

namespace hw::formats {
namespace {

TEST(Utf8, EveryCodePointReadsBackWithItsLength) {
  for (std::uint32_t point = 0; point <= 0x10FFFF; ++point) {
    if (point >= 0xD800 && point <= 0xDFFF) continue;
    std::string letter;
    append_utf8(letter, point);
    const std::size_t length = point < 0x80 ? 1 : point < 0x800 ? 2 : point < 0x10000 ? 3 : 4;
    ASSERT_EQ(letter.size(), length) << point;
    ASSERT_EQ(utf8_letter_bytes(letter + "x"), length) << point;
    ASSERT_TRUE(length == 1 || utf8_letter_bytes(letter.substr(0, length - 1)) == 0) << point;
  }
}

TEST(Utf8, OverlongFormsSurrogatesAndStrayBytesAreNone) {
  for (const char* bytes : {"\xC0\x80", "\xC1\xBF", "\xE0\x80\x80", "\xE0\x9F\xBF", "\xED\xA0\x80", "\xED\xBF\xBF",
                            "\xF0\x8F\xBF\xBF", "\xF4\x90\x80\x80", "\xF8\x88\x80\x80\x80", "\x80", "\xFF", "\xC3("}) {
    EXPECT_EQ(utf8_letter_bytes(bytes), 0U) << bytes;
    EXPECT_FALSE(is_utf8(std::string("ok ") + bytes));
  }
  EXPECT_TRUE(is_utf8("gr\xC3\xBC\xC3\x9F dich \xF0\x9F\x98\x80"));
}

TEST(Utf8, WhatIsNoCodePointBecomesTheReplacementMark) {
  for (const std::uint32_t point : {0xD800u, 0xDFFFu, 0x110000u, 0xFFFFFFFFu}) {
    std::string letter;
    append_utf8(letter, point);
    EXPECT_EQ(letter, "\xEF\xBF\xBD");
  }
}

}  // namespace
}  // namespace hw::formats
