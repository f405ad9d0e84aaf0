#include "libs/values/small_letters.h"

#include <cwctype>
#include <locale>

#include <gtest/gtest.h>

namespace hw {
namespace {

TEST(SmallLetters, CapitalsOfTheLanguagesOfShopsBecomeSmall) {
  EXPECT_EQ(in_small_letters("OIL below the Tank, 5 BAR"), "oil below the tank, 5 bar");
  EXPECT_EQ(in_small_letters("ÖL ÄÜß ÉÀÇÑØ"), "öl äüß éàçñø");
  EXPECT_EQ(in_small_letters("ŁÓDŹ ŽĎÁR ŐŰ Ÿ"), "łódź žďár őű ÿ");
  EXPECT_EQ(in_small_letters("ΛΆΔΙ МАСЛО ЁЇ"), "λΆδι масло ёї");  // Greek with an accent stays: its mapping is apart
}

TEST(SmallLetters, WhatIsNoCapitalStays) {
  for (const char* text : {"", "×÷", "ıĸŉ", "日本 €", "a\xFF\xC3", "\xC3(", "\xE2\x82"}) {
    EXPECT_EQ(in_small_letters(text), text);
  }
}

// The outside judge is the C library, where it has the locale: whatever we make small, it makes small the same way.
TEST(SmallLetters, MatchesPublished_CLibrary) {
  locale_t utf8 = ::newlocale(LC_CTYPE_MASK, "C.UTF-8", nullptr);
  if (utf8 == nullptr) GTEST_SKIP() << "no C.UTF-8 here";
  for (unsigned letter = 0x80; letter < 0x800; ++letter) {
    const std::string text{static_cast<char>(0xC0u | letter >> 6), static_cast<char>(0x80u | (letter & 0x3Fu))};
    const std::string ours = in_small_letters(text);
    const unsigned small =
        (static_cast<unsigned char>(ours[0]) & 0x1Fu) << 6 | (static_cast<unsigned char>(ours[1]) & 0x3Fu);
    if (small != letter) {
      EXPECT_EQ(small, ::towlower_l(letter, utf8)) << std::hex << letter;
    }
  }
  ::freelocale(utf8);
}

}  // namespace
}  // namespace hw
