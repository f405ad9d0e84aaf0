#include "src/terminal/watched_file.h"

#include <algorithm>
#include <map>
#include <optional>

#include "src/terminal/table_file.h"

namespace hw::terminal {
namespace {

struct WatchedColumns {
  std::size_t machine = 0, age = 0, end = 0;
  std::optional<std::size_t> entry = {};
};

struct WatchedRows {
  life::WatchedMachine watch;
  std::optional<double> end, entry;
};

// The cell says it, or says nothing; saying another number than before is refused.
Result<void> say_once(std::optional<double>& said, const formats::CsvTable& table, std::size_t row,
                      std::size_t column) {
  HW_TAKE(number, table.number(row, column));
  if (!number) return {};
  if (!said) said = *number;
  if (*said == *number) return {};
  return refuse(
      Error{ErrorCode::bad_input, fmt::format("it was {:g} on a row before", *said)}.at(table.place(row, column)));
}

Result<void> add_row(WatchedRows& machine, const formats::CsvTable& table, std::size_t row,
                     const WatchedColumns& columns) {
  HW_TAKE(age, table.number(row, columns.age));
  if (age) machine.watch.failures.push_back(*age);
  HW_TRY(say_once(machine.end, table, row, columns.end));
  return columns.entry ? say_once(machine.entry, table, row, *columns.entry) : Result<void>{};
}

}  // namespace

Result<std::vector<life::WatchedMachine>> read_watched_file(const std::string& path) {
  HW_TAKE(table, read_table(path));
  HW_TRY(check_columns(table, {"machine", "age", "end", "entry"}));
  HW_TAKE(machine, table.column("machine"));
  HW_TAKE(age, table.column("age"));
  HW_TAKE(end, table.column("end"));
  const WatchedColumns columns{machine, age, end, table.find_column("entry")};
  std::vector<std::string> names;
  std::map<std::string, WatchedRows, std::less<>> machines;
  for (std::size_t row = 0; row < table.row_count(); ++row) {
    const std::string name(table.text(row, columns.machine));
    const auto [there, is_new] = machines.try_emplace(name);
    if (is_new) names.push_back(name);
    HW_TRY(add_row(there->second, table, row, columns));
  }
  std::vector<life::WatchedMachine> watched;
  for (const std::string& name : names) {
    WatchedRows& rows = machines.at(name);
    if (!rows.end) {
      return refuse(ErrorCode::bad_input, "{}: machine \"{}\" has no end: up to which age was it watched?", path, name);
    }
    rows.watch.end = *rows.end;
    rows.watch.entry = rows.entry.value_or(0);
    std::sort(rows.watch.failures.begin(), rows.watch.failures.end());
    watched.push_back(std::move(rows.watch));
  }
  return watched;
}

}  // namespace hw::terminal
