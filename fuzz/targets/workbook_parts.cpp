// The files inside of an XLSX, told apart by lines of "%%", packed as a spreadsheet packs them: the fuzzer could not
// itself make an archive whose check sums are right.

#include <array>
#include <cmath>

#include "fuzz/pieces.h"
#include "fuzz/stored_zip.h"
#include "fuzz/targets.h"
#include "libs/formats/sheet.h"
#include "libs/values/assert.h"

namespace hw::fuzz {

void workbook_parts(std::string_view input) {
  constexpr std::array<std::string_view, 5> names = {"_rels/.rels", "xl/workbook.xml", "xl/_rels/workbook.xml.rels",
                                                     "xl/worksheets/sheet1.xml", "xl/sharedStrings.xml"};
  std::vector<ZipPart> parts;
  for (const std::string_view name : names) parts.push_back({name, take_until(input, "\n%%\n")});
  const formats::SheetLimits limits{
      .rows_max = 200, .columns_max = 40, .cells_max = 4000, .unpacked_bytes_max = std::uint64_t{1} << 20};
  const auto table = formats::read_sheet(stored_zip(parts), limits);
  if (!table) return;
  std::size_t cells = 0;
  for (const formats::TableRow& row : table->rows) {
    cells += row.cells.size();
    for (const formats::TableCell& cell : row.cells) {
      HW_ASSERT(!cell.number || std::isfinite(*cell.number), "a number is finite");
    }
  }
  HW_ASSERT(cells <= limits.cells_max && table->rows.size() <= limits.rows_max, "cells are limited");
}

}  // namespace hw::fuzz
