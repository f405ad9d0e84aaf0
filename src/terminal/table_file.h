#pragma once
// Tables (CSV with a header) from files, by the names of their columns.

#include <initializer_list>
#include <string>

#include "libs/formats/csv.h"

namespace hw::terminal {

inline constexpr std::size_t table_bytes_max = std::size_t{256} << 20;

// A table, plain or packed; - is standard input. Errors: not_found, too_large, bad_input as parse_csv has it.
Result<formats::CsvTable> read_table(const std::string& path, std::size_t bytes_max = table_bytes_max);

// Refuses a column that is none of `known`: it would be left out without a word.
Result<void> check_columns(const formats::CsvTable& table, std::initializer_list<std::string_view> known);

}  // namespace hw::terminal
