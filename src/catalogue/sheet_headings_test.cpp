#include "src/catalogue/sheet_headings.h"

#include <set>

#include <gtest/gtest.h>

#include "src/catalogue/sheet_words.h"

namespace hw::catalogue {
namespace {

FoundHeadings found_in(std::string_view text) { return find_headings(*formats::read_sheet(text), {}).value(); }

TEST(SheetHeadings, OursAreUnderstoodInBothLanguages) {
  for (const SheetLanguage language : {SheetLanguage::english, SheetLanguage::german}) {
    formats::SheetTable table;
    table.rows.push_back({1, {}});
    for (const FieldWords& words : field_words) {
      table.rows[0].cells.push_back({std::string(heading_of(words.field, language)), {}});
    }
    const auto found = find_headings(table, {}).value();
    for (std::size_t i = 0; i < sheet_field_count; ++i) {
      EXPECT_EQ(found.columns[i].field, field_words[i].field) << found.columns[i].heading;
      EXPECT_EQ(static_cast<std::size_t>(field_words[i].field), i);
      EXPECT_EQ(sheet_field_of(field_words[i].word), field_words[i].field);
    }
  }
}

TEST(SheetHeadings, NoWordStandsForTwoFields) {
  std::set<std::string_view> seen;
  for (const FieldWords& words : field_words) {
    for (std::string_view rest = words.understood; !rest.empty();) {
      const auto blank = std::min(rest.find(' '), rest.size());
      EXPECT_TRUE(seen.insert(rest.substr(0, blank)).second) << rest.substr(0, blank);
      rest.remove_prefix(std::min(blank + 1, rest.size()));
    }
  }
}

TEST(SheetHeadings, TheClearerOfTwoForOneFieldIsTaken) {
  const auto found = found_in("Nr.;Artikelnummer;Artikel;Bezeichnung;Menge\n1;F-1;x;Filter;2\n");
  EXPECT_EQ(found.column(SheetField::number), 1u);
  EXPECT_EQ(found.column(SheetField::title), 3u);
  EXPECT_EQ(found.column(SheetField::on_hand), 4u);
  EXPECT_EQ(found.columns[0].field, std::nullopt);
}

TEST(SheetHeadings, OneThatIsKnownIsEnoughInARowOfSeveral) {
  EXPECT_EQ(found_in("Sachnummer;Farbe\nA;rot\n").column(SheetField::number), 0u);
}

TEST(SheetHeadings, StandBelowATitleAndBeforeTheParts) {
  const auto found = found_in("Stock list;;\nMay;;\nPart No.;Stück-Preis EUR;Lead time [days]\nid;text;no\n");
  EXPECT_EQ(found.first_row, 3u);
  EXPECT_EQ(found.column(SheetField::price), 1u);
  EXPECT_EQ(found.column(SheetField::lead_days), 2u);
}

}  // namespace
}  // namespace hw::catalogue
