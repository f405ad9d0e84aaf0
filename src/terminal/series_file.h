#pragma once
// Readings from a table (CSV with a header), by the names of their columns.

#include <optional>
#include <string>
#include <vector>

#include "libs/values/local_date.h"
#include "src/terminal/table_file.h"

namespace hw::terminal {

// Errors: not_found, too_large beyond 16 MB, bad_input as parse_csv has it, and for a table without rows.
Result<formats::CsvTable> read_series_table(const std::string& path);

// The column's numbers, one a row. Errors: bad_input with file, line and column for a cell that is empty or no finite
// number.
Result<std::vector<double>> numbers_of(const formats::CsvTable& table, std::size_t column);

// The numbers of a table with the one column x. Errors: of both above.
Result<std::vector<double>> read_single_values(const std::string& path);

// Values at places: columns x and y, or t and x, or date and y (or x). Dates become days since the first row's.
struct PairedSeries {
  std::vector<double> at;
  std::vector<double> values;
  std::vector<LocalDate> dates = {};  // where the places are dates; else empty
};
Result<PairedSeries> paired_series(const formats::CsvTable& table);

// Subgroups: columns x1, x2 ... with a subgroup in each row, or columns subgroup and x with a value in each row.
// Nothing where the table has neither. Errors name the row of a subgroup with a value too few.
Result<std::optional<std::vector<std::vector<double>>>> subgroups_of(const formats::CsvTable& table);

}  // namespace hw::terminal
