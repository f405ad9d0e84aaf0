#include "src/sheets/plan_drawing.h"

#include <fstream>
#include <sstream>

#include <gtest/gtest.h>

#include "libs/formats/pdf_reading_test.h"
#include "src/sheets/card_marks.h"
#include "src/sheets/drawings_text.h"
#include "src/sheets/sample_card_test.h"
#include "tests/places/places.h"

namespace hw::sheets {
namespace {

using formats::MmBox;
using formats::MmPoint;

std::string drawn_with(const std::string& shape) { return "{\"lathe\": [" + shape + "]}"; }

TEST(PlanDrawing, TheProgramHasTheFileOfTheLibrary) {
  std::stringstream text;
  text << std::ifstream(in_source("library/drawings.json")).rdbuf();
  EXPECT_EQ(text.str(), drawings_text);
}

TEST(PlanDrawing, EachOfTheSevenKindsIsDrawnAndAnotherIsABareEnclosure) {
  const auto drawings = parse_drawings(drawings_text);
  ASSERT_TRUE(drawings.has_value()) << drawings.error().message;
  EXPECT_EQ(drawings->size(), 7u);
  for (const auto& [kind, drawing] : *drawings) {
    EXPECT_EQ(drawing_of(kind).size(), drawing.size()) << kind;
    EXPECT_GT(drawing.size(), 30u) << kind;
  }
  EXPECT_EQ(drawing_of("no such kind").size(), 1u);
}

TEST(PlanDrawing, APathIsReadAsItsStrokes) {
  const auto strokes = parse_path("M1 2L3.5 4H-5V6M7 8L9 10");
  ASSERT_TRUE(strokes.has_value());
  EXPECT_EQ(strokes->at(0), (std::vector<MmPoint>{{1, 2}, {3.5, 4}, {-5, 4}, {-5, 6}}));
  EXPECT_EQ(strokes->at(1), (std::vector<MmPoint>{{7, 8}, {9, 10}}));
  for (const auto* wrong : {"", "L1 2", "M1", "M1 2C3 4", "M1 2h3", "Mx y"}) EXPECT_FALSE(parse_path(wrong)) << wrong;
}

TEST(PlanDrawing, AShapeThatCannotBeIsRefusedByItsPlace) {
  const auto refused = [](const std::string& shape) { return parse_drawings(drawn_with(shape)).error().message; };
  EXPECT_NE(refused(R"({"of": "", "look": "bold", "disc": [1, 2, 3]})").find("lathe[0]"), std::string::npos);
  EXPECT_NE(refused(R"({"of": "", "look": "part", "disc": [1, 2]})").find("disc"), std::string::npos);
  EXPECT_NE(refused(R"({"of": "", "look": "part"})").find("box, disc and line"), std::string::npos);
  EXPECT_NE(refused(R"({"of": "", "look": "part", "line": "m1 2"})").find("line"), std::string::npos);
}

TEST(PlanDrawing, EachChosenPointStandsWhereItIsOnThePlanWithItsNumber) {
  const auto set = set_of("lathe");
  formats::PdfCanvas canvas("plan");
  canvas.begin_page({120, 120});
  draw_plan(canvas, {10, 10, 100, 100}, drawing_of("lathe"), set.points, {3, 9, 14});
  const formats::PdfReading reading(canvas.finish());
  const auto words = reading.words(1);
  ASSERT_EQ(words.size(), 3u);
  for (const auto& word : words) {
    const auto& point = set.points.at(static_cast<std::size_t>(std::stoi(word.text) - 1));
    EXPECT_NEAR(word.box.left_mm + word.box.width_mm / 2, 10 + point.x * 100, 0.3) << word.text;
    EXPECT_NEAR(word.box.top_mm + word.box.height_mm / 2, 10 + point.y * 100, 0.5) << word.text;
  }
  EXPECT_GT(reading.darkness(1, MmBox{20, 24, 82, 80}), 0.02) << "the machine is drawn";
}

}  // namespace
}  // namespace hw::sheets
