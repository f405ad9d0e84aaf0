#include <algorithm>
#include <array>

#include "libs/formats/csv.h"
#include "libs/formats/text_encoding.h"

namespace hw::formats {
namespace {

constexpr std::array<char, 3> delimiters = {'\t', ';', ','};  // on a tie the first is likelier
constexpr std::size_t rows_looked_at = 10;

bool is_ending(char letter) { return letter == '\n' || letter == '\r'; }

std::size_t count_endings(std::string_view text) {
  std::size_t count = 0;
  for (std::size_t at = 0; at < text.size(); ++at) {
    const bool is_crlf = text[at] == '\r' && at + 1 < text.size() && text[at + 1] == '\n';
    count += is_ending(text[at]) && !is_crlf ? 1 : 0;
  }
  return count;
}

// How often the delimiter stands outside quotes in each of the first rows that are not empty.
std::vector<std::size_t> counts_by_row(std::string_view text, char delimiter) {
  std::vector<std::size_t> counts;
  std::size_t count = 0;
  bool is_quoted = false;
  bool is_empty = true;
  const auto close_row = [&] {
    if (!is_empty) counts.push_back(count);
    count = 0;
    is_empty = true;
  };
  for (const char letter : text) {
    is_quoted ^= letter == '"';
    if (is_ending(letter) && !is_quoted) {
      close_row();
      if (counts.size() == rows_looked_at) return counts;
      continue;
    }
    count += letter == delimiter && !is_quoted ? 1 : 0;
    is_empty = false;
  }
  close_row();
  return counts;
}

// The one that stands in the header, in every row alike if there is such a one, and most often.
char likeliest_delimiter(std::string_view text) {
  std::size_t best_score = 0;
  char best = ';';  // one column: its commas can only be decimal ones
  for (const char delimiter : delimiters) {
    const auto counts = counts_by_row(text, delimiter);
    if (counts.empty()) continue;
    const bool is_alike = std::all_of(counts.begin(), counts.end(), [&](std::size_t n) { return n == counts.front(); });
    const std::size_t score = 2 * counts.front() * (is_alike ? text.size() : 1);  // alike outweighs any number
    if (score > best_score) {
      best_score = score;
      best = delimiter;
    }
  }
  return best;
}

}  // namespace

class CsvParser {
 public:
  CsvParser(std::string_view text, std::string name, const CsvLimits& limits) : text_(text), limits_(limits) {
    table_.name_ = std::move(name);
    table_.text_.reserve(text.size());
  }

  Result<CsvTable> parse() {
    table_.delimiter_ = stated_delimiter().value_or(likeliest_delimiter(text_));
    if (auto header = read_header(); !header) return refuse(header.error());
    while (at_ < text_.size()) {
      const std::uint64_t line = line_;
      if (auto row = read_row(); !row) return refuse(row.error());
      if (auto added = add_row(line); !added) return refuse(added.error());
    }
    return std::move(table_);
  }

 private:
  using Cell = CsvTable::Cell;

  // The line "sep=;" that some spreadsheets put first.
  std::optional<char> stated_delimiter() {
    if (!text_.starts_with("sep=") || text_.size() < 6 || !is_ending(text_[5])) return std::nullopt;
    const char stated = text_[4];
    if (std::find(delimiters.begin(), delimiters.end(), stated) == delimiters.end()) return std::nullopt;
    at_ = 5;
    skip_ending();
    return stated;
  }

  Result<void> read_header() {
    do {
      if (at_ == text_.size()) return refuse_at(line_, ErrorCode::bad_input, "no row with the columns' names");
      header_line_ = line_;
      if (auto row = read_row(); !row) return row;
    } while (is_row_empty());
    for (const Cell& cell : row_) table_.header_.emplace_back(CsvTable::trim(view(cell)));
    auto& names = table_.header_;
    while (!names.empty() && names.back().empty()) names.pop_back();
    if (names.empty()) return refuse_at(header_line_, ErrorCode::bad_input, "no columns' names, only blanks");
    return check_names();
  }

  Result<void> check_names() const {
    for (const std::string& column : table_.header_) {
      if (column.empty() || table_.find_column(column) == static_cast<std::size_t>(&column - table_.header_.data()))
        continue;
      return refuse_at(header_line_, ErrorCode::bad_input, fmt::format("two columns are named \"{}\"", column));
    }
    return {};
  }

  Result<void> add_row(std::uint64_t line) {
    if (is_row_empty()) return {};
    const std::size_t columns = table_.header_.size();
    for (std::size_t i = columns; i < row_.size(); ++i) {
      if (row_[i].length == 0) continue;
      return refuse_at(line, ErrorCode::bad_input,
                       fmt::format("{} cells, but the header has {}; is a quote missing?", row_.size(), columns));
    }
    row_.resize(columns, Cell{0, 0});
    table_.cells_.insert(table_.cells_.end(), row_.begin(), row_.end());
    table_.row_lines_.push_back(line);
    return {};
  }

  // One row into row_, up to and with its ending.
  Result<void> read_row() {
    row_.clear();
    for (;;) {
      auto cell = at_ < text_.size() && text_[at_] == '"' ? read_quoted() : read_plain();
      if (!cell) return refuse(cell.error());
      row_.push_back(*cell);
      if (row_.size() > limits_.columns_max) {
        return refuse_at(line_, ErrorCode::too_large, fmt::format("more than {} columns", limits_.columns_max));
      }
      if (at_ == text_.size()) return {};
      if (text_[at_] != table_.delimiter_) break;
      ++at_;
    }
    skip_ending();
    return {};
  }

  Result<Cell> read_plain() {
    const std::size_t begin = at_;
    while (at_ < text_.size() && text_[at_] != table_.delimiter_ && !is_ending(text_[at_])) ++at_;
    return keep(table_.text_.size(), text_.substr(begin, at_ - begin));
  }

  Result<Cell> read_quoted() {
    const std::uint64_t line = line_;
    const std::size_t kept_begin = table_.text_.size();
    for (;;) {
      const std::size_t begin = at_ + 1;
      const std::size_t end = text_.find('"', begin);
      if (end == std::string_view::npos)
        return refuse_at(line, ErrorCode::bad_input, "a quote is opened and never closed");
      line_ += count_endings(text_.substr(begin, end - begin));
      at_ = end + 1;
      const bool is_doubled = at_ < text_.size() && text_[at_] == '"';
      const Cell cell = keep(kept_begin, text_.substr(begin, end - begin + (is_doubled ? 1 : 0)));
      if (is_doubled) continue;
      if (at_ == text_.size() || text_[at_] == table_.delimiter_ || is_ending(text_[at_])) return cell;
      return refuse_at(line_, ErrorCode::bad_input,
                       "text after a closing quote; a quote inside a cell is written twice");
    }
  }

  Cell keep(std::size_t begin, std::string_view text) {
    table_.text_.append(text);
    return {begin, table_.text_.size() - begin};
  }

  void skip_ending() {
    const bool is_crlf = text_.substr(at_, 2) == "\r\n";
    at_ += is_crlf ? 2 : 1;
    ++line_;
  }

  bool is_row_empty() const {
    return std::all_of(row_.begin(), row_.end(), [](const Cell& cell) { return cell.length == 0; });
  }
  std::string_view view(const Cell& cell) const {
    return std::string_view(table_.text_).substr(cell.begin, cell.length);
  }

  tl::unexpected<Error> refuse_at(std::uint64_t line, ErrorCode code, std::string_view what) const {
    return refuse(code, "{}, line {}: {}", table_.name_, line, what);
  }

  std::string_view text_;
  CsvLimits limits_;
  std::size_t at_ = 0;
  std::uint64_t line_ = 1;
  std::uint64_t header_line_ = 1;
  std::vector<Cell> row_;
  CsvTable table_;
};

Result<CsvTable> parse_csv(std::string_view bytes, std::string name, const CsvLimits& limits) {
  if (bytes.size() > limits.bytes_max) {
    return refuse(ErrorCode::too_large, "{}: longer than {} bytes", name, limits.bytes_max);
  }
  const auto text = to_utf8(bytes);
  if (!text) return refuse(text.error().at(name));
  return CsvParser(*text, std::move(name), limits).parse();
}

}  // namespace hw::formats
