#include "src/catalogue/shop_workbook.h"

#include <fstream>
#include <sstream>

#include <gmock/gmock.h>

#include "libs/formats/workbook.h"
#include "src/catalogue/shop_files.h"
#include "tests/places/places.h"

namespace hw::catalogue {
namespace {

using formats::NumberLook;
using formats::SheetLine;
using formats::SheetNumber;
using formats::WorkSheet;
using testing::HasSubstr;

std::string text_of(const std::string& file) {
  std::ifstream in(file);
  std::ostringstream out;
  out << in.rdbuf();
  return out.str();
}

// A small shop's sheets, to be altered.
struct ShopWorkbook : testing::Test {
  WorkSheet plant{"Plant", {}, {"name", "zone"}, {{"Works", "Europe/Berlin"}}};
  WorkSheet shifts{"Shifts", {}, {"name", "starts", "ends", "weekdays"}, {{"early", "06:00", "14:00", "1-5"}}};
  WorkSheet closed{"Closed days", {}, {"date", "why"}, {{"2026-12-24", "holiday"}}};
  WorkSheet cells{"Cells", {}, {"key", "title"}, {{"a", "Cell A"}}};
  WorkSheet people{"People", {}, {"name", "skill", "lead"}, {{"Ada", "technician", "yes"}}};
  WorkSheet machines{
      "Machines",
      {},
      {"key", "name", "kind", "cell", "year", "fills"},
      {{"m1", "Lathe 1", "lathe", "a", SheetNumber{2019, NumberLook::plain}, "operating = t1; powered = t2"}}};

  Result<Shop> parsed() const {
    const auto bytes = formats::print_workbook("Works", {plant, shifts, closed, cells, people, machines});
    EXPECT_TRUE(bytes);
    return parse_shop_workbook(*bytes, "shop.xlsx");
  }
  std::string refusal() const {
    const auto shop = parsed();
    EXPECT_FALSE(shop);
    return shop ? "" : shop.error().message;
  }
};

TEST_F(ShopWorkbook, IsReadAsTheShopsFileWouldBe) {
  const auto shop = parsed();
  ASSERT_TRUE(shop) << shop.error().message;
  EXPECT_EQ(shop->plant, "Works");
  EXPECT_EQ(shop->calendar.shifts[0].begins_minute, 360);
  EXPECT_EQ(shop->calendar.shifts[0].weekdays, (std::vector<int>{1, 2, 3, 4, 5}));
  EXPECT_EQ(shop->calendar.closed[0].on, LocalDate::of(2026, 12, 24));
  EXPECT_TRUE(shop->people[0].is_lead);
  EXPECT_EQ(shop->machines[0].year, 2019);
  EXPECT_EQ(shop->machines[0].fills.at("powered"), "t2");
}

TEST_F(ShopWorkbook, OfTheDemoHoldsWhatTheDemosFileDoes) {
  const auto file = parse_shop(text_of(in_source("demo/shop.toml")), "shop.toml");
  ASSERT_TRUE(file);
  const auto bytes = print_shop_workbook(*file);
  ASSERT_TRUE(bytes) << bytes.error().message;
  const auto read = parse_shop_workbook(*bytes, "demo.xlsx");
  ASSERT_TRUE(read) << read.error().message;
  EXPECT_EQ(read->plant, file->plant);
  EXPECT_EQ(read->calendar.closed.size(), file->calendar.closed.size());
  EXPECT_EQ(read->calendar.shifts.back().ends_minute, file->calendar.shifts.back().ends_minute);
  ASSERT_EQ(read->machines.size(), file->machines.size());
  for (std::size_t i = 0; i < read->machines.size(); ++i) {
    EXPECT_EQ(read->machines[i].key, file->machines[i].key);
    EXPECT_EQ(read->machines[i].fills, file->machines[i].fills);
    EXPECT_EQ(read->machines[i].standing_per_hour, file->machines[i].standing_per_hour);
  }
  EXPECT_EQ(*print_shop_workbook(*read), *bytes);
}

TEST_F(ShopWorkbook, TakesDatesAndTimesAsSpreadsheetsHaveThem) {
  const auto number = [](double value) { return SheetNumber{value, NumberLook::plain}; };
  closed.lines = {{"24.12.2026", "as text"}, {number(46381), "as a date cell"}};
  shifts.lines[0][1] = number(0.25);
  shifts.lines[0][3] = "1, 3, 5";
  const auto shop = parsed();
  ASSERT_TRUE(shop) << shop.error().message;
  EXPECT_EQ(shop->calendar.closed[0].on, LocalDate::of(2026, 12, 24));
  EXPECT_EQ(shop->calendar.closed[1].on, LocalDate::of(2026, 12, 25));
  EXPECT_EQ(shop->calendar.shifts[0].begins_minute, 360);
  EXPECT_EQ(shop->calendar.shifts[0].weekdays, (std::vector<int>{1, 3, 5}));
}

TEST_F(ShopWorkbook, WhatIsWrongIsSaidWithSheetRowAndField) {
  machines.lines.push_back({"m2", "Lathe 2", "lathe", "b", "", ""});
  EXPECT_THAT(refusal(), HasSubstr("m2 is in cell \"b\", which is not there"));
  machines.lines[1] = {"m2", "Lathe 2", "lathe", "a", "nineteen", ""};
  EXPECT_THAT(refusal(), HasSubstr("sheet Machines, row 3, year"));
  machines.lines.pop_back();
  closed.lines = {{"12/24/2026", "which is it?"}};
  EXPECT_THAT(refusal(), HasSubstr("sheet Closed days, row 2, date"));
  closed.lines = {};
  people.lines[0][1] = "boss";
  EXPECT_THAT(refusal(), HasSubstr("sheet People, row 2, skill"));
  people.lines[0] = {"Ada", "technician", "maybe"};
  EXPECT_THAT(refusal(), HasSubstr("sheet People, row 2, lead"));
}

TEST_F(ShopWorkbook, SheetsAndColumnsThatThereAreNotAreRefused) {
  machines.heading[4] = "built";
  EXPECT_THAT(refusal(),
              HasSubstr("shop.xlsx: sheet Machines, row 1: there is no column \"built\"; there are key, name"));
  machines.heading[4] = "name";
  EXPECT_THAT(refusal(), HasSubstr("the column \"name\" is there twice"));
  machines.heading[4] = "year";
  cells.name = "Groups";
  EXPECT_THAT(refusal(), HasSubstr("there is a sheet \"Groups\"; Plant, Shifts"));
}

TEST_F(ShopWorkbook, WhatIsNoWorkbookIsRefused) {
  EXPECT_THAT(parse_shop_workbook("name;zone\n", "shop.xlsx").error().message,
              HasSubstr("shop.xlsx: this is no workbook"));
  EXPECT_THAT(parse_shop_workbook("PK\x03\x04oops", "shop.xlsx").error().message, HasSubstr("shop.xlsx: "));
  EXPECT_FALSE(parse_shop_workbook("", "shop.xlsx"));
}

}  // namespace
}  // namespace hw::catalogue
