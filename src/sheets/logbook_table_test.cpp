#include "src/sheets/logbook_table.h"

#include <gtest/gtest.h>

#include "libs/formats/csv.h"

namespace hw::sheets {
namespace {

service::EntryView entry() {
  service::EntryView entry;
  entry.id = "e7";
  entry.ordinal = 7;
  entry.kind = "check answered";
  entry.machine = "m01";
  entry.by = "Ada";
  entry.at = *parse_instant("2026-03-02T23:40:00Z");
  entry.happened_at = *parse_instant("2026-03-02T23:30:00Z");
  entry.says = "daily round: pH 8.9";
  return entry;
}

formats::CsvTable table(std::vector<service::EntryView> entries) {
  return *formats::parse_csv(print_logbook(entries, *Zone::find("Europe/Berlin")), "logbook.csv");
}

std::string cell(const formats::CsvTable& table, std::string_view column) {
  return std::string{table.text(0, *table.column(column))};
}

TEST(LogbookTable, HasALineForEachEntryWithThePlantsDate) {
  const auto read = table({entry(), entry()});
  EXPECT_EQ(read.row_count(), 2u);
  EXPECT_EQ(cell(read, "ordinal"), "7");
  EXPECT_EQ(cell(read, "happened_on"), "2026-03-03");
  EXPECT_EQ(cell(read, "happened_at"), print(entry().happened_at));
  EXPECT_EQ(cell(read, "heard_at"), print(entry().at));
  EXPECT_EQ(cell(read, "machine"), "m01");
  EXPECT_EQ(cell(read, "note"), "");
  EXPECT_EQ(cell(read, "undone"), "");
}

TEST(LogbookTable, AnswersAndPhotosStandInOneCell) {
  auto one = entry();
  service::GivenAnswer look, reading, oil;
  look.title = "Leaks";
  look.answer = "not so";
  look.note = "below the pump";
  reading.title = "pH";
  reading.value = 8.9;
  reading.unit = "pH";
  reading.state = "warning";
  oil.title = "Way oil";
  oil.answer = "as it should be";
  oil.quantity = 0.5;
  oil.quantity_unit = "l";
  one.answers = std::vector{look, reading, oil};
  one.photos = std::vector<service::PhotoName>{{"p1", "aa"}, {"p2", "bb"}};
  one.undone = true;
  const auto read = table({one});
  EXPECT_EQ(cell(read, "answers"),
            "Leaks: not so, below the pump; pH: 8.9 pH (warning); Way oil: as it should be, 0.5 l");
  EXPECT_EQ(cell(read, "photos"), "p1; p2");
  EXPECT_EQ(cell(read, "undone"), "yes");
}

TEST(LogbookTable, WhatSomebodyWroteIsNeverAFormula) {
  auto one = entry();
  one.by = "=cmd|'/c x'!A1";
  one.note = "+1 \"quoted\",\r\nsecond line";
  one.machine = "-m01";
  one.task = "@task";
  const auto read = table({one});
  EXPECT_EQ(cell(read, "by"), "'=cmd|'/c x'!A1");
  EXPECT_EQ(cell(read, "note"), "'+1 \"quoted\",\r\nsecond line");
  EXPECT_EQ(cell(read, "machine"), "'-m01");
  EXPECT_EQ(cell(read, "task"), "'@task");
}

TEST(LogbookTable, WithoutEntriesItIsItsHeader) {
  EXPECT_TRUE(print_logbook({}, Zone::utc()).starts_with("ordinal,happened_on,"));
  EXPECT_EQ(print_logbook({}, Zone::utc()).find('\n') + 1, print_logbook({}, Zone::utc()).size());
}

}  // namespace
}  // namespace hw::sheets
