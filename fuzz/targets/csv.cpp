// A table that was read, printed and read again has the same cells; numbers are finite.

#include "libs/formats/csv.h"

#include <cmath>

#include "fuzz/targets.h"
#include "libs/values/assert.h"

namespace hw::fuzz {
namespace {

using Rows = std::vector<std::vector<std::string>>;

Rows rows_of(const formats::CsvTable& table) {
  Rows rows;
  for (std::size_t row = 0; row < table.row_count(); ++row) {
    auto& cells = rows.emplace_back();
    for (std::size_t column = 0; column < table.header().size(); ++column) {
      cells.emplace_back(table.text(row, column));
      const auto number = table.number(row, column);
      HW_ASSERT(!number || !*number || std::isfinite(**number), "a number is finite");
    }
  }
  return rows;
}

}  // namespace

void csv(std::string_view input) {
  const formats::CsvLimits limits{.columns_max = 64};
  const auto table = formats::parse_csv(input, "table.csv", limits);
  if (!table) return;
  const Rows rows = rows_of(*table);
  const std::string printed = formats::print_csv(table->header(), rows);
  const auto again = formats::parse_csv(printed, "again.csv", limits);
  // A heading that states the delimiter, or that is nothing, is read otherwise when it stands in front.
  if (!again || again->delimiter() != ',' || again->header().size() != table->header().size()) return;
  HW_ASSERT(rows_of(*again) == rows, "a table is read back as it was printed");
}

}  // namespace hw::fuzz
