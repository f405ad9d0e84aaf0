#include "libs/formats/qr.h"

#include <string>

#include <gtest/gtest.h>

#include "libs/formats/pdf_reading_test.h"

namespace hw::formats {
namespace {

std::vector<std::string> read_back(const QrCode& code) {
  PdfCanvas canvas("code");
  canvas.begin_page({100, 100});
  canvas.qr(code, {0, 0, 100, 100});
  return PdfReading(canvas.finish()).codes(1, 150);
}

TEST(Qr, AnotherReaderReadsWhatWasWrittenAtEveryLevel) {
  for (const auto level : {QrLevel::low, QrLevel::medium, QrLevel::quartile, QrLevel::high}) {
    for (const std::string text :
         {"http://shop.example:8470/machine/m01", "A", "http://10.0.0.7/machine/Fr%C3%A4se~1"}) {
      EXPECT_EQ(read_back(encode_qr(text, level).value()), std::vector{text});
    }
  }
}

// ISO/IEC 18004: version 1 has 21 modules; each further version 4 more; version 40 holds 2,953 bytes at level L and
// 1,663 at level Q.
TEST(Qr, SidesAndCapacitiesAreTheStandards) {
  EXPECT_EQ(encode_qr("A", QrLevel::quartile)->side_modules(), 21);
  EXPECT_EQ(encode_qr(std::string(11, 'a'), QrLevel::quartile)->side_modules(), 21);
  EXPECT_EQ(encode_qr(std::string(12, 'a'), QrLevel::quartile)->side_modules(), 25);
  EXPECT_EQ(encode_qr(std::string(2953, 'a'), QrLevel::low)->side_modules(), 177);
  EXPECT_EQ(encode_qr(std::string(1663, 'a'), QrLevel::quartile)->side_modules(), 177);
}

TEST(Qr, WhatNoCodeHoldsIsRefusedWithItsLength) {
  for (const std::size_t bytes : {std::size_t{1664}, std::size_t{2954}, std::size_t{1} << 32}) {
    const auto refused = encode_qr(std::string(bytes, 'a'), QrLevel::quartile);
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.error().code, ErrorCode::too_large);
    EXPECT_NE(refused.error().message.find(std::to_string(bytes)), std::string::npos) << refused.error().message;
  }
}

TEST(Qr, NothingAndWhatReadersWouldGuessAtIsRefused) {
  EXPECT_EQ(encode_qr("", QrLevel::low).error().code, ErrorCode::bad_input);
  EXPECT_EQ(encode_qr("Fräse", QrLevel::low).error().code, ErrorCode::bad_input);
}

TEST(Qr, RunsAreAllDarkModulesAndNeverTouchInARow) {
  const auto code = encode_qr("http://shop.example/machine/m01", QrLevel::quartile).value();
  std::vector<std::vector<bool>> seen(static_cast<std::size_t>(code.side_modules()),
                                      std::vector<bool>(static_cast<std::size_t>(code.side_modules())));
  DarkRun before{-1, 0, 0};
  for (const auto& run : code.dark_runs()) {
    EXPECT_TRUE(run.row > before.row || run.column > before.column + before.modules);
    for (int i = 0; i < run.modules; ++i) {
      seen[static_cast<std::size_t>(run.row)][static_cast<std::size_t>(run.column + i)] = true;
    }
    before = run;
  }
  for (int row = 0; row < code.side_modules(); ++row) {
    for (int column = 0; column < code.side_modules(); ++column) {
      EXPECT_EQ(seen[static_cast<std::size_t>(row)][static_cast<std::size_t>(column)], code.is_dark(row, column));
    }
  }
  EXPECT_EQ(code.dark_runs().front(), (DarkRun{0, 0, 7}));  // the upper edge of the finder pattern
}

}  // namespace
}  // namespace hw::formats
