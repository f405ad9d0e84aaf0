#include "src/sheets/parts_table.h"

#include <fmt/ranges.h>

#include "libs/formats/csv.h"
#include "libs/formats/workbook.h"
#include "src/catalogue/sheet_fields.h"
#include "src/sheets/mistake_words.h"
#include "src/sheets/office_csv.h"

namespace hw::sheets {
namespace {

using catalogue::SheetField;
using catalogue::SheetLanguage;
using formats::TableCell;

SheetLanguage sheet_language(CardLanguage language) {
  return language == CardLanguage::german ? SheetLanguage::german : SheetLanguage::english;
}

std::vector<std::string> headings_in(CardLanguage language) {
  std::vector<std::string> headings;
  for (std::size_t i = 0; i < catalogue::sheet_field_count; ++i) {
    headings.emplace_back(heading_of(catalogue::sheet_field_at(i), sheet_language(language)));
  }
  return headings;
}

std::vector<TableCell> cells_of(const PartOnHand& part, CardLanguage language) {
  std::vector<TableCell> cells;
  for (std::size_t i = 0; i < catalogue::sheet_field_count; ++i) {
    const SheetField field = catalogue::sheet_field_at(i);
    if (field == SheetField::on_hand) {
      cells.push_back(part.on_hand ? TableCell{"", part.on_hand} : TableCell{});
    } else {
      cells.push_back(cell_of(part.part, field, sheet_language(language)));
    }
  }
  return cells;
}

double width_of(SheetField field) {
  if (field == SheetField::title || field == SheetField::note) return 40;
  return catalogue::holds_number(field) || field == SheetField::unit ? 10 : 18;
}

// "Price: -1 must be ...; On hand: ..."
std::string mistakes_in(const catalogue::SheetRow& row, CardLanguage language) {
  std::vector<std::string> all;
  for (const auto& mistake : row.mistakes) {
    const std::string says = print_mistake(mistake, language);
    all.push_back(mistake.heading.empty() ? says : mistake.heading + ": " + says);
  }
  return fmt::format("{}", fmt::join(all, "; "));
}

}  // namespace

std::string print_parts_csv(std::span<const PartOnHand> parts, CardLanguage language) {
  std::vector<std::vector<std::string>> rows;
  for (const PartOnHand& part : parts) {
    auto& row = rows.emplace_back();
    for (const TableCell& cell : cells_of(part, language)) {
      row.push_back(cell.number ? office_number(*cell.number, language) : formats::harmless_cell(cell.text));
    }
  }
  return print_office_csv(headings_in(language), rows, language);
}

Result<std::string> print_parts_workbook(std::span<const PartOnHand> parts, CardLanguage language) {
  formats::WorkSheet sheet;
  sheet.name = language == CardLanguage::german ? "Teile" : "Parts";
  for (std::size_t i = 0; i < catalogue::sheet_field_count; ++i) {
    sheet.widths.push_back(width_of(catalogue::sheet_field_at(i)));
  }
  for (std::string& heading : headings_in(language)) sheet.heading.emplace_back(std::move(heading));
  for (const PartOnHand& part : parts) {
    auto& line = sheet.lines.emplace_back();
    for (const TableCell& cell : cells_of(part, language)) {
      if (cell.number) {
        line.push_back(formats::SheetNumber{*cell.number, formats::NumberLook::plain});
      } else {
        line.push_back(cell.text);
      }
    }
  }
  return formats::print_workbook(sheet.name, {sheet});
}

std::string print_mistakes(const catalogue::PartsSheet& sheet, CardLanguage language) {
  std::vector<std::string> headings;
  for (const auto& column : sheet.look.columns) headings.push_back(formats::harmless_cell(column.heading));
  headings.emplace_back(language == CardLanguage::german ? "Fehler" : "Mistake");
  std::vector<std::vector<std::string>> rows;
  for (const catalogue::SheetRow& row : sheet.mistaken) {
    auto& cells = rows.emplace_back();
    for (const std::string& cell : row.cells) cells.push_back(formats::harmless_cell(cell));
    cells.push_back(formats::harmless_cell(mistakes_in(row, language)));
  }
  return print_office_csv(headings, rows, language);
}

}  // namespace hw::sheets
