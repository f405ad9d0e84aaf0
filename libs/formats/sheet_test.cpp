#include "libs/formats/sheet.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "libs/formats/workbook.h"
#include "libs/formats/xlsx_reading.h"
#include "libs/formats/zip_making_test.h"

namespace hw::formats {
namespace {

using Grid = std::vector<std::vector<std::string>>;

SheetTable read(std::string_view bytes) {
  auto table = read_sheet(bytes);
  EXPECT_TRUE(table) << table.error().message;
  return table.value_or(SheetTable{});
}

Grid grid_of(const SheetTable& table) {
  Grid grid;
  for (const TableRow& row : table.rows) {
    auto& texts = grid.emplace_back();
    for (const TableCell& cell : row.cells) texts.push_back(cell.text);
  }
  return grid;
}

std::string refusal(std::string_view bytes, const SheetLimits& limits = {}) {
  const auto table = read_sheet(bytes, limits);
  return table ? "accepted" : table.error().message;
}

// A workbook as other programs write it: prefixes, absolute targets, sheets out of order.
ZipFiles workbook_files(const std::string& cells) {
  return {
      {"_rels/.rels", R"(<Relationships><Relationship Id="r1" Type="x/officeDocument" Target="/book/book.xml"/>)"
                      "</Relationships>"},
      {"book/book.xml", R"(<x:workbook xmlns:x="m" xmlns:q="r"><x:sheets><x:sheet name="H" state="hidden" q:id="a"/>)"
                        R"(<x:sheet name="Empty" q:id="b"/><x:sheet name="Parts" q:id="c"/></x:sheets></x:workbook>)"},
      {"book/_rels/book.xml.rels",
       R"(<Relationships><Relationship Id="a" Type="x/worksheet" Target="hidden.xml"/>)"
       R"(<Relationship Id="b" Type="x/worksheet" Target="sheets/empty.xml"/>)"
       R"(<Relationship Id="c" Type="x/worksheet" Target="../other/parts.xml"/>)"
       R"(<Relationship Id="d" Type="x/sharedStrings" Target="texts.xml"/></Relationships>)"},
      {"book/hidden.xml", "<worksheet><sheetData><row><c><v>1</v></c></row></sheetData></worksheet>"},
      {"book/sheets/empty.xml", "<worksheet><sheetData><row><c s=\"1\"/></row></sheetData></worksheet>"},
      {"book/texts.xml", "<sst><si><t>Return </t><r><t>filter</t></r><rPh><t>x</t></rPh></si><si><t> a</t></si></sst>"},
      {"other/parts.xml", "<x:worksheet xmlns:x=\"m\"><x:sheetData>" + cells + "</x:sheetData></x:worksheet>"}};
}

TEST(Sheet, CsvOfAnyOfficeIsTheSameTable) {
  const Grid right{{"Teil", "Menge", "Preis"}, {"Öl", "1", "2,50"}, {"Filter; groß", "2", "3,10"}};
  for (const std::string_view text : {"Teil;Menge;Preis\r\nÖl;1;2,50\r\n\"Filter; groß\";2;3,10\r\n",
                                      "\xEF\xBB\xBFTeil\tMenge\tPreis\rÖl\t1\t2,50\rFilter; groß\t2\t3,10",
                                      "sep=;\nTeil;;Menge;Preis\n;;;\nÖl;;1;2,50\n\n\"Filter; groß\";;2;3,10\n;;;\n",
                                      "Teil,Menge,Preis\nÖl,1,\"2,50\"\nFilter; groß,2,\"3,10\"\n"}) {
    EXPECT_EQ(grid_of(read(text)), right) << text;
  }
  const SheetTable windows = read("Teil;Menge\n\xD6l;1\n");
  EXPECT_EQ(windows.rows[1].cells[0].text, "Öl");
  EXPECT_EQ(print(windows.form), "CSV, Windows-1252, semicolons");
}

TEST(Sheet, PartsOfAWorkbookAreFoundByTheirRelationships) {
  const std::string bytes = zip_of(workbook_files(""));
  const auto parts = find_workbook_parts(ZipArchive::open(bytes, 1 << 20).value()).value();
  ASSERT_EQ(parts.sheets.size(), 2u);
  EXPECT_EQ(parts.sheets[0].part, "book/sheets/empty.xml");
  EXPECT_EQ(parts.sheets[1].part, "other/parts.xml");
  EXPECT_EQ(parts.shared_texts, "book/texts.xml");
}

TEST(Sheet, ATitleAboveTheHeadingsDoesNotMislead) {
  const SheetTable table =
      read("Parts, as counted, May\n\nNumber;Title\nF-104;Filter, coarse\nF-105;\"a\nb\"\nF-106;c\n");
  EXPECT_EQ(table.form.delimiter, ';');
  EXPECT_EQ(table.rows[1].row, 3u);
  EXPECT_EQ(table.rows[4].row, 6u) << "a row is a row of the sheet, however many lines it has in the file";
}

TEST(Sheet, AWorkbookOfAnotherProgramIsReadFromItsFirstFilledSheet) {
  const SheetTable table = read(zip_of(workbook_files(
      R"(<x:row r="3"><x:c r="B3" t="s"><x:v>0</x:v></x:c><x:c t="inlineStr"><x:is><x:t>in_x0041_line</x:t></x:is></x:c></x:row>)"
      R"(<x:row r="7"><x:c r="B7" t="b"><x:v>1</x:v></x:c><x:c><x:f>1+1</x:f><x:v>12.300000000000001</x:v></x:c></x:row>)"
      R"(<x:row><x:c r="B8" t="str"><x:f>"a"</x:f><x:v>a</x:v></x:c><x:c r="C8"><x:v>4006381333931</x:v></x:c></x:row>)")));
  EXPECT_EQ(grid_of(table), (Grid{{"Return filter", "inAline"}, {"TRUE", "12.3"}, {"a", "4006381333931"}}));
  EXPECT_EQ(table.rows[0].row, 3u);
  EXPECT_EQ(table.rows[2].row, 8u);
  EXPECT_EQ(table.rows[1].cells[1].number, 12.3);
  EXPECT_EQ(table.rows[1].cells[0].number, std::nullopt);
  EXPECT_EQ(print(table.form), "XLSX");
}

RC_GTEST_PROP(Sheet, Property_WhatIsPrintedAsAWorkbookIsReadBack, ()) {
  const auto text_of_ascii = rc::gen::container<std::string>(rc::gen::inRange<char>(1, 127));
  const auto texts = *rc::gen::container<std::vector<std::string>>(text_of_ascii);
  WorkSheet sheet{"s", {}, {"Heading"}, {}};
  for (const std::string& text : texts) sheet.lines.push_back({"x" + text, SheetNumber{2.5}});
  const auto table = read_sheet(*print_workbook("t", {sheet}));
  RC_ASSERT(table.has_value());
  RC_ASSERT(table->rows.size() == texts.size() + 1);
  for (std::size_t i = 0; i < texts.size(); ++i) {
    RC_ASSERT(table->rows[i + 1].cells[0].text == "x" + texts[i]);
    RC_ASSERT(table->rows[i + 1].cells[1].number == 2.5);
  }
}

TEST(Sheet, WhatCannotBeReadIsRefusedInAPlainSentence) {
  const std::string ole = "\xD0\xCF\x11\xE0\xA1\xB1\x1A\xE1";
  std::string encrypted = ole;
  for (const char letter : std::string_view("EncryptedPackage")) encrypted += {letter, '\0'};
  EXPECT_EQ(refusal(""), "the file is empty");
  EXPECT_EQ(refusal(ole + "x"), "this is an old workbook (XLS); open it and save it as XLSX or CSV");
  EXPECT_EQ(refusal(encrypted), "the workbook has a password; save it without one");
  EXPECT_EQ(refusal("%PDF-1.4"), "this is a PDF; right is the table itself as XLSX or CSV");
  EXPECT_EQ(refusal(" ; \n\n"), "nothing stands in the sheet");
  EXPECT_EQ(refusal("a;\"b\n"), "the sheet, line 1: a quote is opened and never closed");
  EXPECT_NE(refusal(zip_of({{"mimetype", "application/vnd.oasis.opendocument.spreadsheet"}})).find("save it as XLSX"),
            std::string::npos);
  EXPECT_NE(refusal(zip_of(workbook_files(""), "secret")).find("password"), std::string::npos);
  EXPECT_EQ(refusal(zip_of(workbook_files(""))), "nothing stands in the sheet");
  EXPECT_NE(refusal(zip_of(workbook_files("<x:row><x:c t=\"s\"><x:v>9</x:v></x:c></x:row>"))).find("damaged"),
            std::string::npos);
}

TEST(Sheet, ACutOffOrDamagedWorkbookIsRefusedAndNeverHalfRead) {
  const std::string whole = zip_of(workbook_files("<x:row><x:c><x:v>1</x:v></x:c></x:row>"));
  for (std::size_t length = 4; length < whole.size(); length += 7) {
    EXPECT_NE(refusal(whole.substr(0, length)), "accepted") << length;
  }
  const std::string long_text =
      zip_of(workbook_files("<x:row><x:c><x:v>" + std::string(2000, '1') + "</x:v></x:c></x:row>"));
  std::string damaged = long_text;
  const auto at = damaged.find("other/parts.xml") + 40;
  damaged[at] = static_cast<char>(damaged[at] ^ 0x55);
  EXPECT_NE(refusal(damaged), "accepted");
}

TEST(Sheet, WhatUnpacksToMoreThanASheetCanBeIsRefused) {
  const std::string bomb =
      zip_of(workbook_files("<x:row><x:c t=\"str\"><x:v>" + std::string(9 << 20, 'a') + "</x:v></x:c></x:row>"));
  EXPECT_LT(bomb.size(), std::size_t{100'000});
  SheetLimits limits;
  limits.unpacked_bytes_max = 1 << 20;
  EXPECT_EQ(read_sheet(bomb, limits).error().code, ErrorCode::too_large);
  const std::string wide = zip_of(workbook_files("<x:row><x:c r=\"XFD1\"><x:v>1</x:v></x:c></x:row>"));
  EXPECT_EQ(read_sheet(wide).error().code, ErrorCode::too_large);
  limits.cells_max = 5;
  EXPECT_EQ(read_sheet("a;b;c\nd;e;f\n", limits).error().code, ErrorCode::too_large);
  limits = {.rows_max = 1};
  EXPECT_EQ(read_sheet("a;b\nc;d\n", limits).error().code, ErrorCode::too_large);
}

}  // namespace
}  // namespace hw::formats
