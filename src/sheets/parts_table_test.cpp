#include "src/sheets/parts_table.h"

#include <gmock/gmock.h>
#include <rapidcheck/gtest.h>

#include "src/sheets/mistake_words.h"

namespace hw::sheets {
namespace {

using catalogue::PartsSheet;
using catalogue::StoredPart;
using testing::HasSubstr;

std::string odd_text() {
  const auto letter = rc::gen::element<std::string>("a", "=", "+", "-", "@", "'", "\"", ";", ",", "\t", "\n", "\r", " ",
                                                    "ö", "€", "\u00A0", "→", "1", ".", "0", "_x0041_", "\x01");
  const auto letters = *rc::gen::container<std::vector<std::string>>(letter);
  std::string text;
  for (const std::string& one : letters) text += one;
  return text;
}

template <class Make>
auto perhaps(Make make) -> std::optional<decltype(make())> {
  if (*rc::gen::arbitrary<bool>()) return std::nullopt;
  return make();
}

double odd_number() {
  return *rc::gen::element(0.0, 1.0, 0.1 + 0.2, 1.234, 12.345, 999.999, 1234.567, 1e-7, 100000.0, 0.5, 1.0 / 3);
}

PartOnHand odd_part(int index) {
  StoredPart part;
  part.number = fmt::format("{}{}", *rc::gen::element<std::string>("", "=", "-", "'=", "00", "ö ", "1."), index);
  part.title = "t" + odd_text();
  part.unit = *rc::gen::element<std::string>("piece", "Stück", "l", "Rolle", "STK");
  part.place = perhaps(odd_text);
  part.note = perhaps(odd_text);
  part.supplier = perhaps(odd_text);
  part.names = perhaps([] { return std::vector<std::string>{odd_text(), odd_text()}; });
  part.references = perhaps([&] {
    return std::vector<catalogue::SupplierReference>{{part.supplier.value_or("x"), odd_text()}, {"other", odd_text()}};
  });
  part.price = perhaps(odd_number);
  part.pack = perhaps(odd_number);
  part.minimum = perhaps(odd_number);
  part.lead_days = perhaps(odd_number);
  part.wanted = perhaps(odd_number);
  part.failures_per_year = perhaps(odd_number);
  part.shelf_life_days = perhaps([] { return *rc::gen::inRange(1, 20'000); });
  part.serial = perhaps([] { return *rc::gen::arbitrary<bool>(); });
  return {part, perhaps([&] { return catalogue::is_counted(part.unit) ? std::floor(odd_number()) : odd_number(); })};
}

void expect_nothing_changes(std::string_view bytes, const std::vector<PartOnHand>& exported) {
  std::vector<StoredPart> parts;
  catalogue::PresentStores present;
  for (const PartOnHand& one : exported) {
    parts.push_back(one.part);
    if (one.on_hand) present.on_hand[one.part.number] = *one.on_hand;
  }
  present.parts = parts;
  const auto table = formats::read_sheet(bytes);
  RC_ASSERT(table.has_value());
  const auto sheet = catalogue::read_parts_sheet(*table, {}, present);
  RC_ASSERT(sheet.has_value());
  for (const auto& row : sheet->mistaken) RC_LOG() << row.mistakes[0].heading << ": " << row.mistakes[0].says;
  RC_ASSERT(sheet->look.alike == static_cast<int>(exported.size()));
  RC_ASSERT(sheet->look.rows == sheet->look.alike);
  RC_ASSERT(sheet->counts.empty());
}

RC_GTEST_PROP(PartsTable, Property_WhatIsExportedChangesNothingWhenItIsReadIn, ()) {
  std::vector<PartOnHand> parts;
  const int count = *rc::gen::inRange(1, 6);
  for (int i = 0; i < count; ++i) parts.push_back(odd_part(i));
  for (const CardLanguage of_csv : {CardLanguage::english, CardLanguage::german}) {
    expect_nothing_changes(print_parts_csv(parts, of_csv), parts);
  }
  const auto language = *rc::gen::element(CardLanguage::english, CardLanguage::german);
  expect_nothing_changes(print_parts_workbook(parts, language).value(), parts);
}

TEST(PartsTable, AGermanSheetHasGermanSignsAndNoFormula) {
  StoredPart part;
  part.number = "F-104";
  part.title = "=cmd()";
  part.unit = "piece";
  part.price = 1234.5;
  const std::string csv = print_parts_csv(std::vector<PartOnHand>{{part, 2}}, CardLanguage::german);
  EXPECT_THAT(csv, HasSubstr("Nummer;Bezeichnung;Einheit;Lagerort;Bestand;"));
  EXPECT_THAT(csv, HasSubstr("F-104;'=cmd();piece;;2;;;\"1234,5\";"));
}

TEST(PartsTable, MendedMistakesCanBeReadInAsTheyAre) {
  const auto table = formats::read_sheet("Nummer;Bezeichnung;Bestand\nA;=Filter;-1\nB;Band;2\n").value();
  const PartsSheet sheet = catalogue::read_parts_sheet(table, {}, {}).value();
  std::string csv = print_mistakes(sheet, CardLanguage::german);
  EXPECT_EQ(csv,
            "\xEF\xBB\xBFNummer;Bezeichnung;Bestand;Fehler\r\nA;'=Filter;'-1;\"Bestand: -1 kann nicht im Fach liegen; "
            "richtig ist 0 oder mehr.\"\r\n");
  csv.replace(csv.find("'-1"), 3, "1");
  const auto mended = catalogue::read_parts_sheet(formats::read_sheet(csv).value(), {}, {}).value();
  EXPECT_EQ(mended.parts.at(0).title, "=Filter");
  EXPECT_EQ(mended.counts.at("A"), 1);
}

TEST(MistakeWords, SayInGermanWhatTheSayingFillsIn) {
  const catalogue::SheetMistake mistake{
      "Preis", "x", Saying{"sheet-two-ways", {{"text", "1,234"}}, {{"less", 1.234}, {"more", 1234}}}};
  EXPECT_THAT(print_mistake(mistake, CardLanguage::german), HasSubstr("„1,234“ kann 1,234 oder 1234 sein, und"));
  EXPECT_EQ(print_mistake(mistake, CardLanguage::english), "x");
  EXPECT_EQ(print_mistake({"", "y", {}}, CardLanguage::german), "y");
}

}  // namespace
}  // namespace hw::sheets
