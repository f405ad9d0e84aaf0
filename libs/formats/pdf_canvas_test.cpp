#include "libs/formats/pdf_canvas.h"

#include <array>

#include <gtest/gtest.h>

#include "libs/formats/pdf_reading_test.h"

namespace hw::formats {
namespace {

constexpr double near_mm = 0.05;
const MmBox line_box{20, 30, 60, 5};

// A page with one text in it.
struct Written {
  TextShown shown;
  std::vector<WordThere> words;
};

Written write(const std::string& text, const MmBox& box, const TextStyle& style) {
  PdfCanvas canvas("one text");
  canvas.begin_page({100, 80});
  const TextShown shown = canvas.text(text, box, style);
  return {shown, PdfReading(canvas.finish()).words(1)};
}

void expect_within(const WordThere& word, const MmBox& box) {
  EXPECT_GE(word.box.left_mm, box.left_mm - near_mm) << word.text;
  EXPECT_LE(word.box.right_mm(), box.right_mm() + near_mm) << word.text;
  EXPECT_GE(word.box.top_mm, box.top_mm - near_mm) << word.text;
  EXPECT_LE(word.box.bottom_mm(), box.bottom_mm() + near_mm) << word.text;
}

TEST(PdfCanvas, PagesHaveTheSizesInMillimetres) {
  PdfCanvas canvas("pages");
  canvas.begin_page({210, 297});
  canvas.begin_page({60, 40});
  const PdfReading reading(canvas.finish());
  EXPECT_EQ(reading.pages(), 2);
  EXPECT_NEAR(reading.page_size().width_mm, 210, near_mm);
  EXPECT_NEAR(reading.page_size().height_mm, 297, near_mm);
}

TEST(PdfCanvas, TextStandsInItsBoxAtTheSideItIsAlignedTo) {
  const auto left = write("Spindle", line_box, {3, TextAlign::left});
  const auto centre = write("Spindle", line_box, {3, TextAlign::centre});
  const auto right = write("Spindle", line_box, {3, TextAlign::right});
  ASSERT_EQ(left.words.size(), 1u);
  EXPECT_EQ(left.words[0].text, "Spindle");
  EXPECT_EQ(left.shown, TextShown::whole);
  EXPECT_NEAR(left.words[0].box.left_mm, line_box.left_mm, near_mm);
  EXPECT_NEAR(right.words.at(0).box.right_mm(), line_box.right_mm(), near_mm);
  const auto& middle = centre.words.at(0).box;
  EXPECT_NEAR(middle.left_mm + middle.width_mm / 2, line_box.left_mm + line_box.width_mm / 2, near_mm);
  for (const auto* written : {&left, &centre, &right}) expect_within(written->words[0], line_box);
}

// The em of DejaVu Sans is 2048 units of the font, its digits are 1303 wide: ten of them at 4 mm are 25.45 mm.
TEST(PdfCanvas, LettersHaveTheSizeOfTheFont) {
  const auto written = write("0123456789", line_box, {4});
  EXPECT_NEAR(written.words.at(0).box.width_mm, 10 * 4 * 1303 / 2048.0, near_mm);
}

TEST(PdfCanvas, ALongTextEndsWithAnEllipsisInItsBox) {
  const auto written = write("A very long name of a machine that no label has room for", line_box, {4});
  EXPECT_EQ(written.shown, TextShown::shortened);
  // The ellipsis bears what it stands for, so that the whole text can be searched and copied.
  EXPECT_TRUE(written.words.back().text.ends_with("room for")) << written.words.back().text;
  for (const auto& word : written.words) expect_within(word, line_box);
}

TEST(PdfCanvas, ATallBoxTakesSeveralLines) {
  const auto written = write("One two three four five six seven", {20, 30, 30, 15}, {4});
  EXPECT_EQ(written.shown, TextShown::whole);
  EXPECT_GT(written.words.back().box.top_mm, written.words.front().box.top_mm + 4);
}

TEST(PdfCanvas, AnAddressBreaksAfterASlashWithoutAHyphen) {
  const auto written = write("http://a-long-name.of-a-shop.example:8470/machine/m01", {20, 30, 75, 10}, {3});
  EXPECT_EQ(written.shown, TextShown::whole);
  ASSERT_EQ(written.words.size(), 2u);
  EXPECT_EQ(written.words[0].text, "http://a-long-name.of-a-shop.example:8470/");
  EXPECT_EQ(written.words[1].text, "machine/m01");
}

TEST(PdfCanvas, LinesAndBadLettersOfATextDoNoHarm) {
  const auto two = write("two\nlines", line_box, {3});
  ASSERT_EQ(two.words.size(), 2u);
  EXPECT_DOUBLE_EQ(two.words[0].box.top_mm, two.words[1].box.top_mm);
  EXPECT_EQ(write("", line_box, {3}).words.size(), 0u);
  EXPECT_EQ(write("\xFF\xFE", line_box, {3}).shown, TextShown::whole);
}

TEST(PdfCanvas, CyrillicChineseJapaneseAndKoreanComeBackAsTheyWereWritten) {
  for (const TextWeight weight : {TextWeight::normal, TextWeight::bold}) {
    for (const std::string text : {"Станок", "立式加工中心", "横形マシニングセンタ", "선반", "Läppmaschine"}) {
      const auto written = write(text, line_box, {3, TextAlign::left, weight});
      ASSERT_EQ(written.words.size(), 1u) << text;
      EXPECT_EQ(written.words[0].text, text);
    }
  }
}

TEST(PdfCanvas, ATextFitsTheHeightThatIsSaidAndNoLess) {
  const std::string text = "One two three four five six seven eight nine ten eleven";
  PdfCanvas canvas("heights");
  canvas.begin_page({100, 80});
  const double height_mm = canvas.text_height_mm(text, 30, {4});
  EXPECT_GT(height_mm, 2 * 4 * 1.17);
  EXPECT_EQ(canvas.text(text, {20, 10, 30, height_mm}, {4}), TextShown::whole);
  EXPECT_EQ(canvas.text(text, {20, 10, 30, height_mm - 1}, {4}), TextShown::shortened);
}

TEST(PdfCanvas, TheLinesOfATextAreAllOfIt) {
  const std::string text = "One two three four five six seven eight nine ten 立式加工中心";
  const PdfCanvas canvas("lines");
  const auto lines = canvas.text_lines(text, 30, {4});
  EXPECT_GE(lines.size(), 3u);
  std::string all;
  for (const auto& line : lines) all += line;
  EXPECT_EQ(all, text);
}

TEST(PdfCanvas, ShapesAreWhereTheyAreSaidToBe) {
  PdfCanvas canvas("shapes");
  canvas.begin_page({100, 80});
  canvas.text("before", {70, 60, 20, 5}, {3});
  canvas.box({10, 10, 20, 10}, 2, {0.2, 0.5, {}});
  canvas.disc({50, 15}, 5, {1, 0.0, {}});
  const std::array<MmPoint, 3> corner{{{10, 40}, {30, 40}, {30, 60}}};
  canvas.polyline(corner, {2, {}, {}});
  canvas.box({50, 40, 20, 20}, 0, {1, {}, ShapeStyle::Edge::dashed});
  const PdfReading reading(canvas.finish());
  EXPECT_NEAR(reading.darkness(1, {12, 12, 16, 6}), 0.5, 0.02);
  EXPECT_NEAR(reading.darkness(1, {48, 13, 4, 4}), 1, 0.02);
  EXPECT_NEAR(reading.darkness(1, {12, 39.5, 16, 1}), 1, 0.1);
  EXPECT_NEAR(reading.darkness(1, {12, 42, 16, 16}), 0, 0.001);
  EXPECT_NEAR(reading.darkness(1, {52, 42, 16, 16}), 0, 0.001);
  EXPECT_NEAR(reading.darkness(1, {52, 39.6, 16, 0.8}), 0.5, 0.2);
  EXPECT_NEAR(reading.darkness(1, {34, 24, 10, 12}), 0, 0.001) << "nothing leads from one shape to the next";
}

TEST(PdfCanvas, ACodeIsDrawnInTheMiddleWithItsQuietZoneAndNotAsAPicture) {
  const auto code = encode_qr("http://shop.example/machine/m01", QrLevel::quartile).value();
  PdfCanvas canvas("code");
  canvas.begin_page({100, 80});
  const double module_mm = canvas.qr(code, {10, 20, 60, 41});
  EXPECT_DOUBLE_EQ(module_mm, 41.0 / (code.side_modules() + 8));
  const PdfReading reading(canvas.finish());
  EXPECT_FALSE(reading.has_images());
  // Cut to exactly the square with its quiet zone it can be read; half of it cannot.
  EXPECT_EQ(reading.codes(1, 300, MmBox{19.5, 20, 41, 41}).size(), 1u);
  EXPECT_EQ(reading.codes(1, 300, MmBox{19.5, 20, 20.5, 41}).size(), 0u);
}

TEST(PdfCanvas, TheSameCallsGiveTheSameBytes) {
  const auto draw = [](const std::string& text) {
    PdfCanvas canvas("same");
    canvas.begin_page({60, 40});
    canvas.text(text, {5, 5, 50, 10}, {4, TextAlign::left, TextWeight::bold});
    canvas.text(text, {5, 20, 50, 10}, {4});
    return canvas.finish();
  };
  EXPECT_EQ(draw("Mill 7"), draw("Mill 7"));
  EXPECT_NE(draw("Mill 7"), draw("Mill 8"));
}

}  // namespace
}  // namespace hw::formats
