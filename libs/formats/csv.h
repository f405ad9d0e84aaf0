#pragma once
// Tables as spreadsheets save them.
//
//   table  = ["sep=" delimiter ending] row *(ending row) [ending]      ending = LF / CRLF / CR
//   row    = cell *(delimiter cell)       delimiter = "," / ";" / TAB, found by looking at the first rows
//   cell   = *char / DQUOTE *(char / DQUOTE DQUOTE) DQUOTE
//
// Any encoding of text_encoding.h; all cells come out as UTF-8. The first row holds the columns' names; rows whose
// cells are all empty are skipped, as are nameless empty columns at the end. Numbers may have a decimal comma where the
// delimiter is not a comma.

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "libs/formats/csv_rows.h"
#include "libs/values/result.h"

namespace hw::formats {

struct CsvLimits {
  std::size_t bytes_max = std::size_t{256} << 20;
  std::size_t columns_max = 4096;
};

class CsvTable {
 public:
  const std::string& name() const { return name_; }
  char delimiter() const { return delimiter_; }
  std::span<const std::string> header() const { return header_; }
  std::size_t row_count() const { return row_lines_.size(); }

  // The number of the column with that name (blanks around it and case of ASCII letters do not count). Errors:
  // bad_input that names the file and the columns there are.
  Result<std::size_t> column(std::string_view header_name) const;
  // The same for a column that may be missing.
  std::optional<std::size_t> find_column(std::string_view header_name) const;

  // Rows are counted from 0 without the header; a row that ends early has empty cells to its end.
  std::string_view text(std::size_t row, std::size_t column) const;
  // Nothing for an empty cell. Errors: bad_input with line and column for what is no finite number.
  Result<std::optional<double>> number(std::size_t row, std::size_t column) const;
  // The line of the file, from 1, in which the row begins.
  std::uint64_t line(std::size_t row) const { return row_lines_[row]; }
  // "stock.csv, line 4, column 2 (interval)": for Error::at.
  std::string place(std::size_t row, std::size_t column) const;

 private:
  friend class CsvParser;
  static std::string_view trim(std::string_view text);  // of blanks and tabs
  std::string name_;
  char delimiter_ = ',';
  std::vector<std::string> header_;
  std::string text_;                      // all cells, one after the other
  std::vector<CsvCell> cells_;            // row by row, header_.size() each
  std::vector<std::uint64_t> row_lines_;  // one per row
};

// Errors, all with file and line: bad_input for an open quote, text after a closing quote, more cells than the header,
// two columns of one name, no header; too_large beyond the limits.
Result<CsvTable> parse_csv(std::string_view bytes, std::string name, const CsvLimits& limits = {});

// A text that a spreadsheet takes for a text. One that begins with = + - @, a tab or a line's end would be run as a
// formula by some spreadsheets, with what somebody else wrote in it: an apostrophe is put in front, which spreadsheets
// show or hide but never compute (the practice that OWASP's page on CSV injection describes, from memory). Every other
// text, and one that begins with an apostrophe already, stays as it is; so who reads the file by a program takes one
// apostrophe off where one of those characters follows.
std::string harmless_cell(std::string_view text);

// RFC 4180: comma (or what is said), CRLF, quotes where they are needed, UTF-8. Each row must be as long as the header.
std::string print_csv(std::span<const std::string> header, std::span<const std::vector<std::string>> rows,
                      char delimiter = ',');

}  // namespace hw::formats
