#include "src/catalogue/parts_sheet.h"

#include <gmock/gmock.h>

namespace hw::catalogue {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::Pair;

StoredPart kept(std::string number, std::string title) {
  StoredPart part;
  part.number = std::move(number);
  part.title = std::move(title);
  part.unit = "piece";
  return part;
}

PartsSheet sheet_of(std::string_view text, const PresentStores& present = {},
                    const std::optional<std::string>& columns = {}) {
  const auto table = formats::read_sheet(text);
  EXPECT_TRUE(table) << table.error().message;
  auto sheet = read_parts_sheet(*table, columns, present);
  EXPECT_TRUE(sheet) << sheet.error().message;
  return sheet.value_or(PartsSheet{});
}

// "3 Preis: \"abc\" is no number; ..." for each mistake.
std::vector<std::string> mistakes_of(const PartsSheet& sheet) {
  std::vector<std::string> all;
  for (const SheetRow& row : sheet.mistaken) {
    for (const SheetMistake& mistake : row.mistakes) {
      all.push_back(fmt::format("{} {}: {}", row.row, mistake.heading, mistake.says));
    }
  }
  return all;
}

TEST(PartsSheet, AGermanShopsListIsUnderstoodByItsHeadings) {
  const PartsSheet sheet = sheet_of(
      "Ersatzteilliste Halle 2\n\n"
      "Artikel-Nr.;Bezeichnung;ME;Lagerort;Bestand;Lieferant;Bestell-Nr.;Preis (EUR);VPE;Lieferzeit;Haltbarkeit;Farbe\n"
      "F-104;Rücklauffilter;Stk;R2/F3;1.200;Filter Meier;RF 10;12,50 €;2;14 Tage;;rot\n"
      "O-7;Bettbahnöl;Liter;Öllager;60,5;Öl Huber;;1.234,50;20;2 Wochen;24 Monate;\n");
  EXPECT_THAT(mistakes_of(sheet), ElementsAre());
  EXPECT_EQ(sheet.look.form, "CSV, UTF-8, semicolons, decimal comma");
  EXPECT_EQ(sheet.look.columns[11].field, std::nullopt);
  EXPECT_EQ(sheet.look.columns[0].field, "number");
  EXPECT_EQ(sheet.look.added, 2);
  ASSERT_EQ(sheet.parts.size(), 2u);
  const StoredPart& filter = sheet.parts[0];
  EXPECT_EQ(filter.number, "F-104");
  EXPECT_EQ(filter.unit, "piece");
  EXPECT_EQ(filter.place, "R2/F3");
  EXPECT_EQ(filter.references, (std::vector<SupplierReference>{{"Filter Meier", "RF 10"}}));
  EXPECT_EQ(filter.price, 12.5);
  EXPECT_EQ(filter.lead_days, 14);
  EXPECT_EQ(sheet.parts[1].unit, "l");
  EXPECT_EQ(sheet.parts[1].price, 1234.5);
  EXPECT_EQ(sheet.parts[1].lead_days, 14);
  EXPECT_EQ(sheet.parts[1].shelf_life_days, 720);
  EXPECT_THAT(sheet.counts, ElementsAre(Pair("F-104", 1200), Pair("O-7", 60.5))) << "60,5 tells how 1.200 is meant";
}

TEST(PartsSheet, WhatTheSheetHasNoColumnForStays) {
  StoredPart old = kept("F-104", "Return filter");
  old.note = "fits both";
  old.price = 10;
  old.references = {{"North", "n1"}, {"South", "s1"}};
  old.supplier = "South";
  const std::vector<StoredPart> parts{old, kept("F-105", "Seal"), kept("F-106", "Belt")};
  const PartsSheet sheet = sheet_of("Part no.,Price,Qty,Supplier part no.\nF-104,11.5,3,s2\nF-105,,0,\nF-106,,2,\n",
                                    {parts, {{"F-105", 0}, {"F-106", 5}}, {}});
  EXPECT_EQ(sheet.look.changed, 1);
  EXPECT_EQ(sheet.look.alike, 2);
  EXPECT_EQ(sheet.look.counted, 2);
  ASSERT_EQ(sheet.parts.size(), 1u);
  old.price = 11.5;
  old.references = {{"North", "n1"}, {"South", "s2"}};
  EXPECT_EQ(sheet.parts[0], old);
  EXPECT_THAT(sheet.counts, ElementsAre(Pair("F-104", 3), Pair("F-106", 2)));
}

TEST(PartsSheet, EveryMistakeIsNamedAtItsRowAndColumn) {
  const PartsSheet sheet = sheet_of(
      "Number;Title;Price;On hand;Substitutes;Serial\n"
      "A;One;abc;-1;;no\n"
      "B;;1;2.5;Z;maybe\n"
      ";Three;1;1;;\n"
      "A;Again;1;1;;\n"
      "C;Four;1,234;1;D;\n"
      "D;Five;1;1;C;\n"
      "E,F;Six;-1;1;;yes\n");
  EXPECT_THAT(
      mistakes_of(sheet),
      ElementsAre("2 Price: \"abc\" is no number; right is for example 12.50",
                  "2 On hand: -1 cannot lie on a shelf; right is 0 or more",
                  "2 Number: A stands in the rows 2, 5; right is one row a part",
                  "3 Serial: \"maybe\" is neither yes nor no", "3 On hand: 2.5 is no whole number of piece",
                  "3 Substitutes: neither the sheet nor the stores have a part \"Z\"",
                  "4 Number: the part's number is missing",
                  "5 Number: A stands in the rows 2, 5; right is one row a part",
                  "6 Price: \"1,234\" can be 1.234 or 1234, and no other number of the column tells which; write "
                  "it without a mark between thousands, or with one more 0 behind",
                  HasSubstr("6 Substitutes: substitutes: C → D → C stand in"),
                  HasSubstr("7 Substitutes: substitutes: C → D → C stand in"),
                  HasSubstr("8 Number: number: \"E,F\" holds a comma")));
  EXPECT_EQ(sheet.look.mistaken, 7);
  EXPECT_THAT(sheet.parts, ElementsAre());
  EXPECT_EQ(sheet.look.mistakes[1].mistakes[0].saying->code, "sheet-yes-no");
  const PartsSheet untitled = sheet_of("Number;Title\nB;\n");
  EXPECT_THAT(mistakes_of(untitled), ElementsAre("2 Title: the part is new and has no title"));
}

TEST(PartsSheet, ARingThroughPartsThatAreThereIsFound) {
  std::vector<StoredPart> parts{kept("A", "One"), kept("B", "Two")};
  parts[1].substitutes = {"A"};
  EXPECT_THAT(mistakes_of(sheet_of("Number;Substitutes\nA;B\n", {parts, {}, {}})),
              ElementsAre(HasSubstr("2 Substitutes: substitutes: A → B → A")));
  EXPECT_EQ(sheet_of("Number;Substitutes\nA;\nB;\n", {parts, {}, {}}).look.changed, 1);
}

TEST(PartsSheet, AUnitInWhichSomethingWasMovedStaysAndADifferenceIsCountedInAnyCase) {
  const std::vector<StoredPart> parts{kept("A", "Oil"), kept("B", "Belt")};
  const PartsSheet sheet = sheet_of("Number;Unit;Stock\nA;l;1\nB;Stk;0\n", {parts, {{"B", -1}}, {"A", "B"}});
  EXPECT_THAT(mistakes_of(sheet), ElementsAre(HasSubstr("2 Unit: it is counted in piece and was moved already")));
  EXPECT_THAT(sheet.counts, ElementsAre(Pair("B", 0)));
}

TEST(PartsSheet, ColumnsAreTakenAsAPersonSaysThem) {
  const std::string french = "Référence,Désignation,x,Stock\nA,Filtre,1,3\n";
  const PartsSheet guessed = sheet_of(french);
  EXPECT_THAT(mistakes_of(guessed), ElementsAre(HasSubstr("no column was found that holds the numbers")));
  const PartsSheet said = sheet_of(french, {}, "number,title,,on_hand");
  EXPECT_THAT(mistakes_of(said), ElementsAre());
  EXPECT_EQ(said.parts.at(0).title, "Filtre");
  EXPECT_THAT(sheet_of("A,Filter,3\nB,Belt,4\n", {}, "number,title,on_hand").counts,
              ElementsAre(Pair("A", 3), Pair("B", 4)))
      << "without a row of headings";
  const auto table = formats::read_sheet("a;b\n1;2\n").value();
  for (const auto* wrong : {"number,colour", "number,number", "number,,title"}) {
    EXPECT_THAT(read_parts_sheet(table, wrong, {}).error().message, HasSubstr("columns: ")) << wrong;
  }
  EXPECT_FALSE(read_parts_sheet(formats::read_sheet("Number;Title\n").value(), {}, {}));
}

TEST(PartsSheet, ManyPartsInAChainOrOneRingAreReadInTheEnd) {
  std::string chain = "Number;Title;Substitutes\n", ring = chain;
  constexpr int parts = 5000;
  for (int i = 0; i < parts; ++i) {
    chain += fmt::format("P{};Part;{}\n", i, i + 1 < parts ? fmt::format("P{}", i + 1) : "");
    ring += fmt::format("P{};Part;P{}\n", i, (i + 1) % parts);
  }
  EXPECT_EQ(sheet_of(chain).look.added, parts);
  EXPECT_EQ(sheet_of(ring).look.mistaken, parts);
}

}  // namespace
}  // namespace hw::catalogue
