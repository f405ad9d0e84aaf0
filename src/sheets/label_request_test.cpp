#include "src/sheets/label_request.h"

#include <gtest/gtest.h>

namespace hw::sheets {
namespace {

Result<LabelOrder> parse(std::vector<LabelSetting> settings) {
  const std::vector<LabelledMachine> machines{{"m01", "Mill 1", "Machining centre", "Cell North"},
                                              {"m02", "Lathe 1", "Lathe", ""}};
  settings.push_back({"base", "http://shop.example"});
  return parse_label_order(settings, machines);
}

TEST(LabelRequest, AllMachinesOnTheStandardSheetWhereNothingIsSaid) {
  const auto order = parse({}).value();
  EXPECT_EQ(order.base_address, "http://shop.example");
  EXPECT_EQ(order.first_label, 1);
  EXPECT_DOUBLE_EQ(order.sheet.pitch_x_mm, 66);
  ASSERT_EQ(order.machines.size(), 2u);
  EXPECT_EQ(order.machines[0].name, "Mill 1");
  EXPECT_EQ(order.machines[0].kind, "Machining centre");
  EXPECT_EQ(order.machines[0].cell, "Cell North");
  EXPECT_EQ(order.machines[1].key, "m02");
}

TEST(LabelRequest, EachNumberGoesWhereItsNameSays) {
  const auto order = parse({{"page_width_mm", "1"},
                            {"page_height_mm", "2"},
                            {"margin_left_mm", "3.5"},
                            {"margin_top_mm", "4"},
                            {"columns", "5"},
                            {"rows", "6"},
                            {"pitch_x_mm", "7"},
                            {"pitch_y_mm", "8"},
                            {"label_width_mm", "9"},
                            {"label_height_mm", "10"},
                            {"first_label", "11"},
                            {"layout", "sheet"}})
                         .value();
  EXPECT_DOUBLE_EQ(order.sheet.page_width_mm, 1);
  EXPECT_DOUBLE_EQ(order.sheet.page_height_mm, 2);
  EXPECT_DOUBLE_EQ(order.sheet.margin_left_mm, 3.5);
  EXPECT_DOUBLE_EQ(order.sheet.margin_top_mm, 4);
  EXPECT_EQ(order.sheet.columns, 5);
  EXPECT_EQ(order.sheet.rows, 6);
  EXPECT_DOUBLE_EQ(order.sheet.pitch_x_mm, 7);
  EXPECT_DOUBLE_EQ(order.sheet.pitch_y_mm, 8);
  EXPECT_DOUBLE_EQ(order.sheet.label_width_mm, 9);
  EXPECT_DOUBLE_EQ(order.sheet.label_height_mm, 10);
  EXPECT_EQ(order.first_label, 11);
}

TEST(LabelRequest, SingleIsOneLabelAPage) {
  const auto sheet = parse({{"layout", "single"}, {"label_height_mm", "50"}})->sheet;
  EXPECT_DOUBLE_EQ(sheet.page_width_mm, 60);
  EXPECT_DOUBLE_EQ(sheet.page_height_mm, 50);
  EXPECT_EQ(sheet.labels_per_page(), 1);
}

TEST(LabelRequest, MachinesComeInTheOrderAskedForAndAsOften) {
  const auto machines = parse({{"machines", "m02,m01,m02"}})->machines;
  ASSERT_EQ(machines.size(), 3u);
  EXPECT_EQ(machines[0].key, "m02");
  EXPECT_EQ(machines[1].key, "m01");
  EXPECT_EQ(machines[2].key, "m02");
  for (const auto* unknown : {"", "m03", "m01,", ",m01", "m01, m02"}) {
    EXPECT_EQ(parse({{"machines", unknown}}).error().code, ErrorCode::not_found) << unknown;
  }
}

TEST(LabelRequest, ShelvesAreAskedForByTheNumbersOfTheirParts) {
  const std::vector<ShelfPart> parts{{"F-104", "Filter", "R1"}, {"F-105", "Seal", "R2"}};
  std::vector<LabelSetting> settings{{"base", "http://shop.example"}};
  EXPECT_EQ(parse_shelf_label_order(settings, parts)->parts.size(), 2u);
  settings.push_back({"parts", "F-105,F-105"});
  EXPECT_EQ(parse_shelf_label_order(settings, parts)->parts.at(1).title, "Seal");
  settings.back().value = "F-106";
  EXPECT_EQ(parse_shelf_label_order(settings, parts).error().message, "parts: there is no part \"F-106\"");
  settings.back() = {"machines", "m01"};
  EXPECT_TRUE(parse_shelf_label_order(settings, parts).error().message.starts_with("machines: there is no such"));
}

TEST(LabelRequest, WhatIsNotThereIsRefused) {
  EXPECT_TRUE(parse({{"colour", "red"}}).error().message.starts_with("colour: there is no such parameter"));
  EXPECT_TRUE(parse({{"layout", "single"}, {"rows", "2"}}).error().message.starts_with("rows: there is no such"));
  EXPECT_TRUE(parse({{"rows", "2"}, {"rows", "2"}}).error().message.starts_with("rows: it is there twice"));
  EXPECT_TRUE(parse({{"rows", "two"}}).error().message.starts_with("rows: \"two\" is no number"));
  EXPECT_TRUE(parse({{"pitch_x_mm", "66mm"}}).error().message.starts_with("pitch_x_mm: \"66mm\" is no number"));
}

}  // namespace
}  // namespace hw::sheets
