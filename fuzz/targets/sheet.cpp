// A file that should be a table of parts: rows are equally long and within the limits, and what the stores would make
// of it is no part of a mistaken row and no number that is none.

#include "libs/formats/sheet.h"

#include <cmath>

#include "fuzz/targets.h"
#include "libs/values/assert.h"
#include "src/catalogue/parts_sheet.h"

namespace hw::fuzz {

void sheet(std::string_view input) {
  const formats::SheetLimits limits{
      .rows_max = 200, .columns_max = 40, .cells_max = 4000, .unpacked_bytes_max = std::uint64_t{1} << 20};
  const auto table = formats::read_sheet(input, limits);
  if (!table) return;
  HW_ASSERT(!table->rows.empty() && table->rows.size() <= limits.rows_max, "rows are limited");
  for (const formats::TableRow& row : table->rows) {
    HW_ASSERT(row.cells.size() == table->rows.front().cells.size(), "all rows are equally long");
    HW_ASSERT(row.cells.size() <= limits.columns_max, "columns are limited");
    for (const formats::TableCell& cell : row.cells) {
      HW_ASSERT(!cell.number || std::isfinite(*cell.number), "a number is finite");
    }
  }
  const auto parts = catalogue::read_parts_sheet(*table, std::nullopt, {});
  if (!parts) return;
  HW_ASSERT(parts->look.mistaken == static_cast<int>(parts->mistaken.size()), "mistakes are counted");
  for (const auto& [part, count] : parts->counts) HW_ASSERT(std::isfinite(count) && count >= 0, "a count is a number");
}

}  // namespace hw::fuzz
