#pragma once
// The rows of a table as csv.h has its grammar, one after the other, as they stand: nothing is known yet of headings.

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "libs/values/result.h"

namespace hw::formats {

// A cell's text within the texts of all cells.
struct CsvCell {
  std::size_t begin;
  std::size_t length;
};

// What stands on top: the columns' names; or perhaps lines of a title above them, in which the delimiter does not
// stand.
enum class CsvTop { names, titles };

class CsvRows {
 public:
  // Of UTF-8 text, which must outlive it; `name` is what refusals call it. The delimiter is found by looking at the
  // first rows, or stated by a first line as "sep=;".
  CsvRows(std::string_view text, std::string name, std::size_t columns_max, CsvTop top);

  char delimiter() const { return delimiter_; }
  bool is_over() const { return at_ == text_.size(); }
  // The next row, up to and with its ending. Errors, with name and line: bad_input for a quote that is never closed and
  // for text after a closing quote; too_large for too many columns.
  Result<void> read();

  // Of the row that was read last.
  std::vector<CsvCell>& row() { return row_; }
  std::uint64_t line() const { return row_line_; }  // in which it begins, from 1
  bool is_row_empty() const;
  std::uint64_t next_line() const { return line_; }  // that of the row to be read next

  std::string_view view(const CsvCell& cell) const { return std::string_view(kept_).substr(cell.begin, cell.length); }
  // The texts of all cells; nothing can be read any more.
  std::string take_texts() { return std::move(kept_); }

  tl::unexpected<Error> refuse_at(std::uint64_t line, ErrorCode code, std::string_view what) const;

 private:
  void skip_stated_delimiter();
  CsvCell read_plain();
  Result<CsvCell> read_quoted();
  CsvCell keep(std::size_t begin, std::string_view text);
  void skip_ending();

  std::string_view text_;
  std::string name_;
  std::size_t columns_max_;
  char delimiter_ = ',';
  std::size_t at_ = 0;
  std::uint64_t line_ = 1;
  std::uint64_t row_line_ = 1;
  std::string kept_;
  std::vector<CsvCell> row_;
};

}  // namespace hw::formats
