#pragma once
// A table as somebody's spreadsheet saved it: CSV of any kind (csv.h, any encoding of text_encoding.h) or XLSX (Office
// Open XML, ISO/IEC 29500-1: the first sheet that is not hidden and has something in it). What the cells mean, and
// which row has the headings, is somebody else's affair.

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "libs/formats/text_encoding.h"
#include "libs/values/result.h"

namespace hw::formats {

struct TableCell {
  std::string text;                   // as it stands; of a number of XLSX its digits with a point
  std::optional<double> number = {};  // of XLSX, where the cell holds a number and no text; 15 digits of it
  bool operator==(const TableCell&) const = default;
};

struct TableRow {
  std::uint64_t row = 0;  // of the sheet, from 1, as spreadsheets count them
  std::vector<TableCell> cells;
};

enum class SheetKind { csv, xlsx };

struct SheetForm {
  SheetKind kind = SheetKind::csv;
  TextEncoding encoding = TextEncoding::utf_8;  // of CSV
  char delimiter = ',';                         // of CSV
};

// Rows and columns in which nothing stands are left out; all rows are equally long.
struct SheetTable {
  SheetForm form;
  std::vector<TableRow> rows;
};

struct SheetLimits {
  std::size_t rows_max = 100'000;
  std::size_t columns_max = 256;
  std::size_t cells_max = 2'000'000;
  std::uint64_t unpacked_bytes_max = std::uint64_t{128} << 20;  // of XLSX
};

// Told by its first bytes. Errors, in a plain sentence: bad_input for an old XLS, a file with a password, another
// office's or a damaged one, text that is none, and a sheet in which nothing stands; too_large beyond the limits.
Result<SheetTable> read_sheet(std::string_view bytes, const SheetLimits& limits = {});

struct TitledSheet {
  std::string title;  // as its tab says
  SheetTable table;
};

// All sheets of a workbook (XLSX) that are not hidden and have something in them, in its order. Errors: those of
// read_sheet, and bad_input for what is no workbook.
Result<std::vector<TitledSheet>> read_sheets(std::string_view bytes, const SheetLimits& limits = {});

// "XLSX"; "CSV, UTF-8, semicolons".
std::string print(const SheetForm& form);

}  // namespace hw::formats
