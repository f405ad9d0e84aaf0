#include "src/catalogue/sheet_fields.h"

#include <gtest/gtest.h>

namespace hw::catalogue {
namespace {

StoredPart odd_part() {
  StoredPart part;
  part.number = "'=1 ";
  part.title = "  =cmd()";
  part.unit = "Stück";
  part.place = "'@x";
  part.names = {"a;b", " c"};
  part.supplier = " South";
  part.references = {{" South", "+1"}, {"North", "2"}};
  part.price = 0.1 + 0.2;
  part.shelf_life_days = 3;
  part.serial = false;
  return part;
}

TEST(SheetFields, WhatIsWrittenOfAPartChangesNothingWhenItIsReadAgain) {
  for (const SheetLanguage language : {SheetLanguage::english, SheetLanguage::german}) {
    StoredPart part = odd_part();
    for (std::size_t i = 0; i < sheet_field_count; ++i) {
      const SheetField field = sheet_field_at(i);
      if (field == SheetField::number || field == SheetField::on_hand) continue;
      ASSERT_TRUE(put_cell(part, field, cell_of(odd_part(), field, language), DecimalSign::untold)) << word_of(field);
    }
    EXPECT_EQ(part, odd_part());
  }
}

TEST(SheetFields, AnEmptyCellTakesOutWhatCanBeMissing) {
  StoredPart part = odd_part();
  for (std::size_t i = 0; i < sheet_field_count; ++i) {
    const SheetField field = sheet_field_at(i);
    if (field == SheetField::number || field == SheetField::on_hand || field == SheetField::supplier) continue;
    ASSERT_TRUE(put_cell(part, field, {}, DecimalSign::untold));
  }
  StoredPart bare;
  bare.number = part.number;
  bare.title = part.title;
  bare.unit = part.unit;
  bare.supplier = part.supplier;
  bare.references = std::vector<SupplierReference>{{"North", "2"}};
  EXPECT_EQ(part, bare);
}

TEST(SheetFields, UnitsAndTimesAreSaidInManyWays) {
  EXPECT_EQ(plain_unit("Stk."), "piece");
  EXPECT_EQ(plain_unit("STÜCK"), "piece");
  EXPECT_EQ(plain_unit("Rolle"), "Rolle");
  const auto days = [](const char* text) {
    return read_number_cell({text, {}}, SheetField::lead_days, DecimalSign::untold, "piece").value();
  };
  EXPECT_EQ(days("3 Wochen"), 21);
  EXPECT_EQ(days("2 Years"), 730);
  EXPECT_EQ(read_number_cell({"95 %", {}}, SheetField::wanted, DecimalSign::untold, "piece").value(), 0.95);
  EXPECT_EQ(read_number_cell({"5 Stk", {}}, SheetField::on_hand, DecimalSign::untold, "piece").value(), 5);
  EXPECT_FALSE(read_number_cell({"5 l", {}}, SheetField::on_hand, DecimalSign::untold, "piece"));
  EXPECT_EQ(plain_text(" \u00A0'=1"), "'=1");
  EXPECT_EQ(plain_text("'=1 "), "=1");
}

}  // namespace
}  // namespace hw::catalogue
