#include "libs/formats/csv.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "libs/formats/utf8.h"

namespace hw::formats {
namespace {

using Rows = std::vector<std::vector<std::string>>;

Rows rows_of(const CsvTable& table) {
  Rows rows;
  for (std::size_t row = 0; row < table.row_count(); ++row) {
    auto& cells = rows.emplace_back();
    for (std::size_t column = 0; column < table.header().size(); ++column) cells.emplace_back(table.text(row, column));
  }
  return rows;
}

CsvTable parsed(std::string_view text) {
  auto table = parse_csv(text, "t.csv");
  EXPECT_TRUE(table.has_value()) << table.error().message;
  return std::move(*table);
}

std::string message_for(std::string_view text) {
  const auto table = parse_csv(text, "t.csv");
  return table ? "accepted" : table.error().message;
}

double number_at(const CsvTable& table, std::size_t row, std::size_t column) {
  return table.number(row, column).value().value();
}

TEST(Csv, DelimiterAndEndingsAreFoundByLooking) {
  const Rows expected = {{"1", "x y"}, {"2", ""}};
  for (const char* text :
       {"a,b\n1,x y\n2,\n", "a;b\r\n1;x y\r\n2\r\n", "a\tb\r1\tx y\r2\t", "sep=;\r\na;b\r\n1;x y\r\n2;",
        "\xEF\xBB\xBF"
        "a,b\n\n1,x y\n,\n2,\n\n",
        "\"a\",\"b\"\n\"1\",\"x y\"\n\"2\",\"\"", "a,b,,\n1,x y,,\n2,,,\n"}) {
    const CsvTable table = parsed(text);
    EXPECT_EQ(rows_of(table), expected) << text;
    EXPECT_EQ(std::vector(table.header().begin(), table.header().end()), (std::vector<std::string>{"a", "b"})) << text;
  }
}

TEST(Csv, DecimalCommasDoNotMislead) {
  const CsvTable table = parsed("Datum;Stunden;\"Wert, neu\"\n2026-03-02;7,4;1\n2026-03-03;8;1,5\n");
  EXPECT_EQ(table.delimiter(), ';');
  EXPECT_EQ(number_at(table, 0, 1), 7.4);
  EXPECT_EQ(number_at(table, 1, 2), 1.5);
  EXPECT_EQ(number_at(parsed("one column\n1,5\n2,5\n"), 1, 0), 2.5);
}

TEST(Csv, QuotesHoldDelimitersEndingsAndQuotes) {
  const CsvTable table = parsed("a,b\r\n\"1,\"\"x\"\"\r\ny\",5\" pipe\r\n3,4\r\n");
  EXPECT_EQ(rows_of(table), (Rows{{"1,\"x\"\r\ny", "5\" pipe"}, {"3", "4"}}));
  EXPECT_EQ(table.line(0), 2U);
  EXPECT_EQ(table.line(1), 4U);
}

TEST(Csv, ColumnsAreFoundByNameWhateverTheCaseAndBlanks) {
  const CsvTable table = parsed(" Hours ,spindle\n1,2\n");
  EXPECT_EQ(table.column("hours"), 0U);
  EXPECT_EQ(table.column("SPINDLE "), 1U);
  EXPECT_EQ(table.find_column("axis"), std::nullopt);
  EXPECT_EQ(table.column("axis").error().message, "t.csv: no column \"axis\"; there are Hours, spindle");
}

TEST(Csv, NumbersAreReadOrRefusedByTheirPlace) {
  const CsvTable table = parsed("a,interval\n+1.5e3, -2 \nx,\"1,000\"\n,nan\n1e999,0x10\n1.2.3,1 000\n");
  EXPECT_EQ(number_at(table, 0, 0), 1500.0);
  EXPECT_EQ(number_at(table, 0, 1), -2.0);
  EXPECT_EQ(table.number(2, 0).value(), std::nullopt);
  EXPECT_EQ(table.number(1, 1).error().message,
            "t.csv, line 3, column 2 (interval): must be a number such as 1234.5 without marks between thousands, not "
            "\"1,000\"");
  for (const auto& [row, column] : {std::pair(1, 0), {2, 1}, {3, 0}, {3, 1}, {4, 0}, {4, 1}}) {
    EXPECT_FALSE(table.number(static_cast<std::size_t>(row), static_cast<std::size_t>(column)).has_value());
  }
  EXPECT_FALSE(parsed("a;b\n1.234,5;2\n").number(0, 0).has_value());
}

TEST(Csv, WhatIsWrongIsNamedByItsLine) {
  EXPECT_EQ(message_for(""), "t.csv, line 1: no row with the columns' names");
  EXPECT_EQ(message_for("\n\n,,\n"), "t.csv, line 4: no row with the columns' names");
  EXPECT_EQ(message_for("\n , \n1,2\n"), "t.csv, line 2: no columns' names, only blanks");
  EXPECT_EQ(message_for("a,b\n1,2\n3,\"4\n5,6\n"), "t.csv, line 3: a quote is opened and never closed");
  EXPECT_EQ(message_for("a,b\n\"1\n\"x,2\n"),
            "t.csv, line 3: text after a closing quote; a quote inside a cell is written twice");
  EXPECT_EQ(message_for("a,b\n1,2,3\n"), "t.csv, line 2: 3 cells, but the header has 2; is a quote missing?");
  EXPECT_EQ(message_for("\na,b, A\n"), "t.csv, line 2: two columns are named \"A\"");
  EXPECT_EQ(message_for(std::string("a,b\n1,\0\n", 8)), "t.csv: line 2: a zero character; this is no text");
  EXPECT_EQ(parse_csv("a,b,c\n", "t", {.columns_max = 2}).error().code, ErrorCode::too_large);
  EXPECT_EQ(parse_csv("a,b,c\n", "t", {.bytes_max = 5}).error().code, ErrorCode::too_large);
}

TEST(Csv, IsPrintedAsRfc4180HasIt) {
  const std::vector<std::string> header = {"name", "note"};
  const Rows rows = {{"a,b", "say \"x\""}, {"plain", " edge"}};
  EXPECT_EQ(print_csv(header, rows), "name,note\r\n\"a,b\",\"say \"\"x\"\"\"\r\nplain,\" edge\"\r\n");
}

RC_GTEST_PROP(Csv, Property_WhatIsPrintedReadsBack, (const std::vector<std::pair<std::string, std::uint32_t>>& cells)) {
  Rows rows;
  for (const auto& [ascii, letter] : cells) {
    std::string text = "x";  // a row of nothing but empty cells is skipped
    append_utf8(text, 1 + letter % 0x10FFFE);
    std::string marks;
    for (const char c : ascii) marks += std::string_view(",;\t\"\r\n a")[static_cast<unsigned char>(c) % 8];
    rows.push_back({text, marks});
  }
  const auto table = parse_csv(print_csv(std::vector<std::string>{"text", "marks"}, rows), "t.csv");
  RC_ASSERT(table.has_value());
  RC_ASSERT(rows_of(*table) == rows);
}

RC_GTEST_PROP(Csv, Property_AnyBytesAreReadOrRefused, (const std::string& bytes)) {
  const auto table = parse_csv("a,b\n" + bytes, "t.csv");
  if (table) RC_ASSERT(rows_of(*table).size() == table->row_count());
  (void)parse_csv(bytes, "t.csv");
}

TEST(Csv, ATextThatBeginsAsAFormulaIsMadeATextForSpreadsheets) {
  for (const char* text : {"=1+1", "=HYPERLINK(\"http://x\")", "+1", "-2", "@SUM(A1)", "\t=1", "\r=1", "\n=1"}) {
    EXPECT_EQ(harmless_cell(text), std::string("'") + text);
  }
  for (const char* text : {"", "oil", "a=b", "'=1", " =1", "1-2", "Öl: +5 l"}) EXPECT_EQ(harmless_cell(text), text);
  const std::vector<std::string> header{"note"};
  const std::vector<std::vector<std::string>> rows{{harmless_cell("=cmd|'/c x'!A1")}};
  const std::string printed = print_csv(header, rows);
  EXPECT_EQ(printed, "note\r\n'=cmd|'/c x'!A1\r\n");
  EXPECT_EQ(parse_csv(printed, "book.csv")->text(0, 0), "'=cmd|'/c x'!A1");
}

}  // namespace
}  // namespace hw::formats
