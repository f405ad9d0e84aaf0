#include "libs/formats/sheet.h"

#include <algorithm>

#include "libs/formats/csv_rows.h"
#include "libs/formats/xlsx_reading.h"

namespace hw::formats {
namespace {

constexpr std::string_view zip_begin = "PK\x03\x04";
constexpr std::string_view ole_begin = "\xD0\xCF\x11\xE0\xA1\xB1\x1A\xE1";  // [MS-CFB] section 2.2

// A workbook with a password is an OLE file with a stream of this name, in UTF-16 ([MS-OFFCRYPTO] section 2.3.4.4).
bool is_encrypted_workbook(std::string_view bytes) {
  std::string name;
  for (const char letter : std::string_view("EncryptedPackage")) name += {letter, '\0'};
  return bytes.find(name) != std::string_view::npos;
}

Result<void> check_kind(std::string_view bytes) {
  if (bytes.empty()) return refuse(ErrorCode::bad_input, "the file is empty");
  if (bytes.starts_with("%PDF")) {
    return refuse(ErrorCode::bad_input, "this is a PDF; right is the table itself as XLSX or CSV");
  }
  if (!bytes.starts_with(ole_begin)) return {};
  if (is_encrypted_workbook(bytes)) {
    return refuse(ErrorCode::bad_input, "the workbook has a password; save it without one");
  }
  return refuse(ErrorCode::bad_input, "this is an old workbook (XLS); open it and save it as XLSX or CSV");
}

bool is_blank(const TableCell& cell) { return cell.text.find_first_not_of(" \t\r\n") == std::string::npos; }

bool is_empty(const TableRow& row) { return std::all_of(row.cells.begin(), row.cells.end(), is_blank); }

tl::unexpected<Error> too_many_cells(const SheetLimits& limits) {
  return refuse(ErrorCode::too_large, "the sheet has more than {} cells; divide it", limits.cells_max);
}

Result<SheetTable> read_csv(std::string_view bytes, const SheetLimits& limits) {
  SheetTable table;
  HW_TAKE(text, to_utf8(bytes));
  CsvRows rows(text, "the sheet", limits.columns_max, CsvTop::titles);
  std::size_t cells = 0;
  table.form = {SheetKind::csv, encoding_of(bytes), rows.delimiter()};
  for (std::uint64_t number = 1; !rows.is_over(); ++number) {
    HW_TRY(rows.read());
    TableRow row{number, {}};
    for (const CsvCell& cell : rows.row()) row.cells.push_back({std::string(rows.view(cell)), {}});
    if (is_empty(row)) continue;
    cells += row.cells.size();
    if (cells > limits.cells_max) return too_many_cells(limits);
    table.rows.push_back(std::move(row));
    if (table.rows.size() > limits.rows_max) {
      return refuse(ErrorCode::too_large, "the sheet has more than {} rows; divide it", limits.rows_max);
    }
  }
  return table;
}

// The columns in which something stands.
std::vector<std::size_t> filled_columns(const SheetTable& table) {
  std::vector<bool> is_filled;
  for (const TableRow& row : table.rows) {
    is_filled.resize(std::max(is_filled.size(), row.cells.size()), false);
    for (std::size_t i = 0; i < row.cells.size(); ++i) is_filled[i] = is_filled[i] || !is_blank(row.cells[i]);
  }
  std::vector<std::size_t> filled;
  for (std::size_t i = 0; i < is_filled.size(); ++i) {
    if (is_filled[i]) filled.push_back(i);
  }
  return filled;
}

// All rows equally long, without the columns in which nothing stands.
Result<void> square(SheetTable& table, const SheetLimits& limits) {
  std::erase_if(table.rows, is_empty);
  const auto filled = filled_columns(table);
  if (filled.size() * table.rows.size() > limits.cells_max) return too_many_cells(limits);
  for (TableRow& row : table.rows) {
    std::vector<TableCell> kept(filled.size());
    for (std::size_t i = 0; i < filled.size() && filled[i] < row.cells.size(); ++i) {
      kept[i] = std::move(row.cells[filled[i]]);
    }
    row.cells = std::move(kept);
  }
  return {};
}

std::string_view name_of(char delimiter) {
  if (delimiter == '\t') return "tabs";
  return delimiter == ';' ? "semicolons" : "commas";
}

}  // namespace

Result<SheetTable> read_sheet(std::string_view bytes, const SheetLimits& limits) {
  HW_TRY(check_kind(bytes));
  HW_TAKE(table, bytes.starts_with(zip_begin) ? read_xlsx(bytes, limits) : read_csv(bytes, limits));
  HW_TRY(square(table, limits));
  if (table.rows.empty()) return refuse(ErrorCode::bad_input, "nothing stands in the sheet");
  return std::move(table);
}

Result<std::vector<TitledSheet>> read_sheets(std::string_view bytes, const SheetLimits& limits) {
  HW_TRY(check_kind(bytes));
  if (!bytes.starts_with(zip_begin)) return refuse(ErrorCode::bad_input, "this is no workbook; save it as XLSX");
  HW_TAKE(sheets, read_xlsx_sheets(bytes, limits));
  for (TitledSheet& sheet : sheets) HW_TRY(square(sheet.table, limits));
  if (sheets.empty()) return refuse(ErrorCode::bad_input, "nothing stands in the workbook");
  return std::move(sheets);
}

std::string print(const SheetForm& form) {
  if (form.kind == SheetKind::xlsx) return "XLSX";
  return fmt::format("CSV, {}, {}", name_of(form.encoding), name_of(form.delimiter));
}

}  // namespace hw::formats
