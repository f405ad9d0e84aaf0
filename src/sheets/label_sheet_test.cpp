#include "src/sheets/label_sheet.h"

#include <cmath>

#include <gtest/gtest.h>

namespace hw::sheets {
namespace {

void expect_refused(const LabelSheet& sheet, std::string_view names) {
  const auto checked = check_sheet(sheet);
  ASSERT_FALSE(checked) << names;
  EXPECT_EQ(checked.error().code, ErrorCode::bad_input);
  EXPECT_TRUE(checked.error().message.starts_with(names)) << checked.error().message;
}

LabelSheet with(double LabelSheet::*field, double value) {
  LabelSheet sheet;
  sheet.*field = value;
  return sheet;
}

TEST(LabelSheet, EveryLabelStandsWhereItsColumnAndRowSay) {
  const LabelSheet sheet;
  const auto places = place_labels(sheet, 1, 24).value();
  for (int row = 0; row < 8; ++row) {
    for (int column = 0; column < 3; ++column) {
      const auto& place = places.at(static_cast<std::size_t>(row * 3 + column));
      EXPECT_EQ(place.page, 0);
      EXPECT_EQ(place.box, (formats::MmBox{7.0 + 66 * column, 12.5 + 34 * row, 64, 34}));
    }
  }
}

TEST(LabelSheet, UsedLabelsAreLeftOutOnTheFirstPageOnly) {
  const auto places = place_labels(LabelSheet{}, 23, 27).value();
  EXPECT_EQ(places[0].page, 0);
  EXPECT_EQ(places[0].box, (formats::MmBox{73, 250.5, 64, 34}));
  EXPECT_EQ(places[1].box, (formats::MmBox{139, 250.5, 64, 34}));
  EXPECT_EQ(places[2].page, 1);
  EXPECT_EQ(places[2].box, (formats::MmBox{7, 12.5, 64, 34}));
  EXPECT_EQ(places[25].page, 1);
  EXPECT_EQ(places[26].page, 2);
}

TEST(LabelSheet, AFirstLabelThatTheSheetDoesNotHaveIsRefused) {
  for (const int first : {0, -1, 25}) {
    const auto places = place_labels(LabelSheet{}, first, 1);
    ASSERT_FALSE(places);
    EXPECT_EQ(places.error().message, "first_label: " + std::to_string(first) + " is out of range; right is 1 to 24");
  }
}

TEST(LabelSheet, OnePerPageIsThePageItself) {
  const auto sheet = one_per_page({60, 40});
  ASSERT_TRUE(check_sheet(sheet));
  const auto places = place_labels(sheet, 1, 3).value();
  for (int i = 0; i < 3; ++i) {
    EXPECT_EQ(places[static_cast<std::size_t>(i)].page, i);
    EXPECT_EQ(places[static_cast<std::size_t>(i)].box, (formats::MmBox{0, 0, 60, 40}));
  }
}

TEST(LabelSheet, WhatFitsToTheLastTenthIsTaken) {
  LabelSheet sheet{210, 297, 0, 0.1, 3, 9, 70, 33, 70, 32.9};
  EXPECT_TRUE(check_sheet(sheet));
  sheet = {210, 297, 0.3, 0, 3, 1, 69.9, 40, 69.9, 297};
  EXPECT_TRUE(check_sheet(sheet));
}

TEST(LabelSheet, WhatDoesNotFitIsRefusedByTheNameOfItsNumber) {
  expect_refused(with(&LabelSheet::margin_left_mm, 14.1), "columns: 3 of them need 210.1 mm, and page_width_mm is 210");
  expect_refused(with(&LabelSheet::margin_top_mm, 25.5), "rows: 8 of them need 297.5 mm, and page_height_mm is 297");
  expect_refused(with(&LabelSheet::pitch_x_mm, 63.9), "pitch_x_mm: 63.9 mm lets labels of 64 mm overlap");
  expect_refused(with(&LabelSheet::pitch_y_mm, 0), "pitch_y_mm: 0 mm lets labels of 34 mm overlap");
}

TEST(LabelSheet, NumbersOutOfRangeAreRefusedNotANumberToo) {
  expect_refused(with(&LabelSheet::page_width_mm, 1201), "page_width_mm: 1201 is out of range; right is 20 to 1200");
  expect_refused(with(&LabelSheet::page_height_mm, std::nan("")), "page_height_mm");
  expect_refused(with(&LabelSheet::margin_left_mm, -0.1), "margin_left_mm");
  expect_refused(with(&LabelSheet::margin_top_mm, HUGE_VAL), "margin_top_mm");
  expect_refused(with(&LabelSheet::pitch_x_mm, std::nan("")), "pitch_x_mm");
  expect_refused(with(&LabelSheet::label_width_mm, 19), "label_width_mm");
  expect_refused(with(&LabelSheet::label_height_mm, 0), "label_height_mm");
  LabelSheet sheet;
  sheet.columns = 0;
  expect_refused(sheet, "columns: 0 is out of range; right is 1 to 50");
  sheet = {};
  sheet.rows = 51;
  expect_refused(sheet, "rows: 51");
}

}  // namespace
}  // namespace hw::sheets
