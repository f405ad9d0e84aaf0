#include "libs/formats/text_encoding.h"

#include <gtest/gtest.h>
#include <iconv.h>

namespace hw::formats {
namespace {

// The C library's own conversion is the judge.
std::string converted(std::string_view text, const char* from, const char* to) {
  const iconv_t conversion = ::iconv_open(to, from);
  std::string out(text.size() * 4 + 8, '\0');
  char* in_at = const_cast<char*>(text.data());
  char* out_at = out.data();
  std::size_t in_left = text.size();
  std::size_t out_left = out.size();
  EXPECT_NE(::iconv(conversion, &in_at, &in_left, &out_at, &out_left), static_cast<std::size_t>(-1)) << from;
  ::iconv_close(conversion);
  out.resize(out.size() - out_left);
  return out;
}

const std::string german = "Spindel;\xC3\x96lstand 5 \xE2\x82\xAC \xE2\x80\x93 gr\xC3\xBC\xC3\x9F";

TEST(TextEncoding, EveryByteOfWindows1252IsReadAsTheCLibraryReadsIt) {
  for (unsigned byte = 1; byte < 256; ++byte) {
    if (byte == 0x81 || byte == 0x8D || byte == 0x8F || byte == 0x90 || byte == 0x9D) continue;  // unused
    const std::string bytes = "\xFF\x80" + std::string(1, static_cast<char>(byte));
    EXPECT_EQ(to_utf8("x" + bytes), converted("x" + bytes, "CP1252", "UTF-8")) << byte;
  }
}

TEST(TextEncoding, AEuroSignAtItsPlaceTellsLatin9) {
  for (unsigned byte = 0xA0; byte < 256; ++byte) {
    const std::string bytes = "12 \xA4" + std::string(1, static_cast<char>(byte));
    EXPECT_EQ(to_utf8(bytes), converted(bytes, "ISO-8859-15", "UTF-8")) << byte;
  }
  EXPECT_EQ(name_of(encoding_of("12 \xA4")), "ISO-8859-15");
  EXPECT_EQ(name_of(encoding_of("\xD6l, \x80 12")), "Windows-1252");
}

TEST(TextEncoding, TheMarkOrTheContentTellsTheEncoding) {
  const std::string astral = german + "\xF0\x9F\x98\x80";
  for (const std::string& known : {german, astral}) {
    EXPECT_EQ(to_utf8(known), known);
    EXPECT_EQ(to_utf8("\xEF\xBB\xBF" + known), known);
    EXPECT_EQ(to_utf8("\xFF\xFE" + converted(known, "UTF-8", "UTF-16LE")), known);
    EXPECT_EQ(to_utf8("\xFE\xFF" + converted(known, "UTF-8", "UTF-16BE")), known);
    EXPECT_EQ(to_utf8(converted(known, "UTF-8", "UTF-16LE")), known);
    EXPECT_EQ(to_utf8(converted(known, "UTF-8", "UTF-16BE")), known);
  }
  EXPECT_EQ(to_utf8(converted(german, "UTF-8", "CP1252")), german);
  EXPECT_EQ(to_utf8(""), "");
}

TEST(TextEncoding, WhatIsNotWhatItsMarkSaysIsRefused) {
  EXPECT_FALSE(to_utf8("\xEF\xBB\xBF gr\xFC\xDF").has_value());
  EXPECT_FALSE(to_utf8(std::string_view("\xFF\xFE"
                                        "a\0b",
                                        5))
                   .has_value());
  EXPECT_FALSE(to_utf8(std::string_view("ab\nc\0d", 6)).has_value());
  EXPECT_EQ(to_utf8(std::string_view("\xFF\xFE\x00\xD8"
                                     "a\0",
                                     6)),
            "\xEF\xBF\xBD"
            "a");
}

}  // namespace
}  // namespace hw::formats
