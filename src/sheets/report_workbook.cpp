#include "src/sheets/report_workbook.h"

#include "libs/formats/workbook.h"

namespace hw::sheets {
namespace {

constexpr std::size_t name_characters_max = 31;
constexpr double width_of_share = 12;  // characters

formats::NumberLook look_of(ReportUnit unit) {
  if (unit == ReportUnit::share) return formats::NumberLook::percent;
  if (unit == ReportUnit::amount) return formats::NumberLook::plain;
  return unit == ReportUnit::hours ? formats::NumberLook::tenths : formats::NumberLook::whole;
}

formats::SheetCell sheet_cell(const ReportCell& cell) {
  if (cell.number) return formats::SheetNumber{*cell.number, look_of(cell.unit)};
  return cell.text;
}

formats::WorkSheet sheet_of(const ReportTable& table) {
  formats::WorkSheet sheet;
  sheet.name = table.title.substr(0, name_characters_max);  // our own words, all short enough
  for (const ReportColumn& column : table.columns) {
    sheet.widths.push_back(std::min(60.0, column.share * width_of_share));
    sheet.heading.push_back(column.title);
  }
  for (const auto& row : table.rows) {
    formats::SheetLine line;
    for (const ReportCell& cell : row) line.push_back(sheet_cell(cell));
    sheet.lines.push_back(std::move(line));
  }
  if (table.rows.empty()) sheet.lines.push_back({table.none});
  return sheet;
}

}  // namespace

Result<std::string> print_report_workbook(const Report& report) {
  std::vector<formats::WorkSheet> sheets;
  for (const ReportTable& table : report.tables) sheets.push_back(sheet_of(table));
  return formats::print_workbook(report.title + "; " + report.subtitle, sheets);
}

}  // namespace hw::sheets
