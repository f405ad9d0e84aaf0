#include "libs/formats/csv_rows.h"

#include <gtest/gtest.h>

namespace hw::formats {
namespace {

char delimiter_of(std::string_view text, CsvTop top) { return CsvRows(text, "t.csv", 10, top).delimiter(); }

TEST(CsvRows, ATitleDoesNotHideTheDelimiterWhereOneMayStandAbove) {
  constexpr std::string_view titled = "Parts, May\nnumber;price\na;1,5\nb;2,5\n";
  EXPECT_EQ(delimiter_of(titled, CsvTop::titles), ';');
  EXPECT_EQ(delimiter_of(titled, CsvTop::names), ',');
  EXPECT_EQ(delimiter_of("a;b;c\n1,5;2,5;3,5\n", CsvTop::titles), ';');
  EXPECT_EQ(delimiter_of("a,b\nx;y,1\n", CsvTop::titles), ',');
}

TEST(CsvRows, RowsComeAsTheyStandWithTheirLines) {
  CsvRows rows("sep=;\n\"a\nb\";;\n\nc", "t.csv", 3, CsvTop::titles);
  ASSERT_TRUE(rows.read());
  EXPECT_EQ(rows.row().size(), 3u);
  EXPECT_EQ(rows.view(rows.row()[0]), "a\nb");
  EXPECT_EQ(rows.line(), 2u);
  ASSERT_TRUE(rows.read());
  EXPECT_TRUE(rows.is_row_empty());
  ASSERT_TRUE(rows.read());
  EXPECT_EQ(rows.line(), 5u);
  EXPECT_TRUE(rows.is_over());
  EXPECT_EQ(CsvRows("a,b,c,d", "t.csv", 3, CsvTop::names).read().error().code, ErrorCode::too_large);
}

}  // namespace
}  // namespace hw::formats
