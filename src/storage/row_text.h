#pragma once
// Rows as text, the same of the same row on both databases:
//
//   row  = 1*cell "\n"                                            a cell for each column
//   cell = "-" | "i" whole | "d" number | "t" length ":" text | "b" length ":" bytes
//
// Whole numbers and lengths are decimal; a number is the shortest decimal that reads back as the same double; zero has
// no sign, since SQLite keeps none. "-" is null.

#include <cstdint>
#include <string>
#include <variant>
#include <vector>

#include <fmt/format.h>

#include "libs/formats/byte_source.h"
#include "libs/sql/value.h"

namespace hw::storage {

void append_cell(fmt::memory_buffer& out, const sql::Parameter::Value& value);

using Cell = std::variant<std::monostate, std::int64_t, double, std::string, sql::Blob>;
// Looks at the cell, which outlives it.
sql::Parameter parameter_of(const Cell& cell);

// Reads them, and the lines between them, from bytes of which only the next ones are in memory.
class RowReader {
 public:
  explicit RowReader(formats::ByteSource& source) : source_(source), buffer_(buffer_bytes, '\0') {}

  // Up to the next line break, which is passed over. Refuses (bad_input) one of more than 4,096 bytes, and the end.
  Result<std::string> line();
  // The next character, which stays; refuses (bad_input) the end.
  Result<char> peek();
  void pass() { ++begin_; }  // after peek()
  Result<bool> is_at_end();
  // As many cells as `row` has places, and the line break. Refuses (bad_input) what is no such row, a number that is
  // not finite, text that is not UTF-8 or holds the character 0, and a cell of more than 64 MiB.
  Result<void> row(std::vector<Cell>& row);

 private:
  static constexpr std::size_t buffer_bytes = std::size_t{64} << 10;
  Result<std::string> until(char end, std::size_t bytes_max);
  Result<std::string> number_text();
  Result<Cell> cell();
  Result<std::string> counted_bytes();

  formats::ByteSource& source_;
  std::string buffer_;
  std::size_t begin_ = 0, end_ = 0;
};

}  // namespace hw::storage
