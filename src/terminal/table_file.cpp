#include "src/terminal/table_file.h"

#include <algorithm>

#include "libs/formats/byte_source.h"

namespace hw::terminal {

Result<formats::CsvTable> read_table(const std::string& path, std::size_t bytes_max) {
  HW_TAKE(source, formats::open_file(path));
  HW_TAKE(bytes, formats::read_all(*source, bytes_max));
  return formats::parse_csv(bytes, source->name());
}

Result<void> check_columns(const formats::CsvTable& table, std::initializer_list<std::string_view> known) {
  for (std::size_t column = 0; column < table.header().size(); ++column) {
    const auto names_it = [&](std::string_view name) { return table.find_column(name) == column; };
    if (std::any_of(known.begin(), known.end(), names_it)) continue;
    return refuse(ErrorCode::bad_input, "{}: there is no use for a column \"{}\"; known are {}", table.name(),
                  table.header()[column], fmt::join(known, ", "));
  }
  return {};
}

}  // namespace hw::terminal
