#include "src/terminal/series_file.h"

#include <map>

namespace hw::terminal {
namespace {

constexpr std::size_t series_bytes_max = std::size_t{16} << 20;

Result<std::vector<LocalDate>> dates_of(const formats::CsvTable& table, std::size_t column) {
  std::vector<LocalDate> dates;
  for (std::size_t row = 0; row < table.row_count(); ++row) {
    const auto date = parse_local_date(table.text(row, column));
    if (!date) return refuse(date.error().at(table.place(row, column)));
    dates.push_back(*date);
  }
  return dates;
}

Result<double> number_at(const formats::CsvTable& table, std::size_t row, std::size_t column) {
  HW_TAKE(number, table.number(row, column));
  if (!number) return refuse(Error{ErrorCode::bad_input, "a number is missing"}.at(table.place(row, column)));
  return *number;
}

// x1, x2 ... as far as they go.
std::vector<std::size_t> wide_columns(const formats::CsvTable& table) {
  std::vector<std::size_t> columns;
  while (const auto column = table.find_column("x" + std::to_string(columns.size() + 1))) columns.push_back(*column);
  return columns;
}

Result<std::vector<std::vector<double>>> by_row(const formats::CsvTable& table,
                                                const std::vector<std::size_t>& columns) {
  std::vector<std::vector<double>> groups(table.row_count());
  for (std::size_t row = 0; row < table.row_count(); ++row) {
    for (const std::size_t column : columns) {
      HW_TAKE(value, number_at(table, row, column));
      groups[row].push_back(value);
    }
  }
  return groups;
}

// In the order in which the subgroups first stand in the table.
Result<std::vector<std::vector<double>>> by_name(const formats::CsvTable& table, std::size_t name_column) {
  HW_TAKE(value_column, table.column("x"));
  std::map<std::string, std::size_t, std::less<>> place_of;
  std::vector<std::vector<double>> groups;
  for (std::size_t row = 0; row < table.row_count(); ++row) {
    HW_TAKE(value, number_at(table, row, value_column));
    const std::string name(table.text(row, name_column));
    if (name.empty())
      return refuse(Error{ErrorCode::bad_input, "a subgroup is missing"}.at(table.place(row, name_column)));
    const auto [place, is_new] = place_of.try_emplace(name, groups.size());
    if (is_new) groups.emplace_back();
    groups[place->second].push_back(value);
  }
  return groups;
}

}  // namespace

Result<formats::CsvTable> read_series_table(const std::string& path) {
  HW_TAKE(table, read_table(path, series_bytes_max));
  if (table.row_count() == 0) return refuse(ErrorCode::bad_input, "{}: no row below the header", table.name());
  return std::move(table);
}

Result<std::vector<double>> read_single_values(const std::string& path) {
  HW_TAKE(table, read_series_table(path));
  HW_TRY(check_columns(table, {"x"}));
  return numbers_of(table, 0);
}

Result<std::vector<double>> numbers_of(const formats::CsvTable& table, std::size_t column) {
  std::vector<double> numbers;
  for (std::size_t row = 0; row < table.row_count(); ++row) {
    HW_TAKE(number, number_at(table, row, column));
    numbers.push_back(number);
  }
  return numbers;
}

Result<PairedSeries> paired_series(const formats::CsvTable& table) {
  HW_TRY(check_columns(table, {"x", "y", "t", "date"}));
  const auto y = table.find_column("y"), date = table.find_column("date"), t = table.find_column("t");
  HW_TAKE(values_column, y ? Result<std::size_t>(*y) : table.column("x"));
  PairedSeries series;
  HW_TAKE(values, numbers_of(table, values_column));
  series.values = values;
  if (date) {
    HW_TAKE(dates, dates_of(table, *date));
    series.dates = dates;
    for (const LocalDate day : dates) series.at.push_back(day - dates.front());
    return series;
  }
  HW_TAKE(at_column, t ? Result<std::size_t>(*t) : table.column(y ? "x" : "t"));
  HW_TAKE(at, numbers_of(table, at_column));
  series.at = at;
  return series;
}

Result<std::optional<std::vector<std::vector<double>>>> subgroups_of(const formats::CsvTable& table) {
  if (const auto name = table.find_column("subgroup")) {
    HW_TRY(check_columns(table, {"subgroup", "x"}));
    HW_TAKE(groups, by_name(table, *name));
    return std::move(groups);
  }
  const std::vector<std::size_t> columns = wide_columns(table);
  if (columns.empty()) return std::nullopt;
  if (columns.size() != table.header().size()) {
    return refuse(ErrorCode::bad_input, "{}: beside x1 to x{} there is no use for other columns", table.name(),
                  columns.size());
  }
  HW_TAKE(groups, by_row(table, columns));
  return std::move(groups);
}

}  // namespace hw::terminal
