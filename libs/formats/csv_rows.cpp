#include "libs/formats/csv_rows.h"

#include <algorithm>
#include <array>
#include <map>
#include <tuple>

namespace hw::formats {
namespace {

constexpr std::array<char, 3> delimiters = {'\t', ';', ','};  // on a tie the first is likelier
constexpr char only_column = ';';                             // one column: its commas can only be decimal ones
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

// How well a delimiter fits; more is better, all 0 is not at all.
using Score = std::pair<std::size_t, std::size_t>;

// Below names it stands in the first row, in every row alike if there is such a one, and most often.
Score score_below_names(const std::vector<std::size_t>& counts) {
  const bool is_alike = std::all_of(counts.begin(), counts.end(), [&](std::size_t n) { return n == counts.front(); });
  return {counts.front() > 0 && is_alike ? 1 : 0, counts.front()};
}

// Below titles it stands equally often in the most rows.
Score score_below_titles(const std::vector<std::size_t>& counts) {
  std::map<std::size_t, std::size_t> rows_with;
  for (const std::size_t count : counts) ++rows_with[count];
  Score best{0, 0};
  for (const auto& [count, rows] : rows_with) {
    if (count > 0) best = std::max(best, Score{rows, count});
  }
  return best;
}

char likeliest_delimiter(std::string_view text, CsvTop top) {
  Score best_score{0, 0};
  char best = only_column;
  for (const char delimiter : delimiters) {
    const auto counts = counts_by_row(text, delimiter);
    if (counts.empty()) continue;
    const Score score = top == CsvTop::names ? score_below_names(counts) : score_below_titles(counts);
    if (score <= best_score) continue;
    best_score = score;
    best = delimiter;
  }
  return best;
}

}  // namespace

CsvRows::CsvRows(std::string_view text, std::string name, std::size_t columns_max, CsvTop top)
    : text_(text), name_(std::move(name)), columns_max_(columns_max), delimiter_(likeliest_delimiter(text, top)) {
  kept_.reserve(text.size());
  skip_stated_delimiter();
}

// The line "sep=;" that some spreadsheets put first.
void CsvRows::skip_stated_delimiter() {
  if (!text_.starts_with("sep=") || text_.size() < 6 || !is_ending(text_[5])) return;
  if (std::find(delimiters.begin(), delimiters.end(), text_[4]) == delimiters.end()) return;
  delimiter_ = text_[4];
  at_ = 5;
  skip_ending();
}

Result<void> CsvRows::read() {
  row_.clear();
  row_line_ = line_;
  for (;;) {
    if (at_ < text_.size() && text_[at_] == '"') {
      HW_TAKE(cell, read_quoted());
      row_.push_back(cell);
    } else {
      row_.push_back(read_plain());
    }
    if (row_.size() > columns_max_) {
      return refuse_at(line_, ErrorCode::too_large, fmt::format("more than {} columns", columns_max_));
    }
    if (at_ == text_.size()) return {};
    if (text_[at_] != delimiter_) break;
    ++at_;
  }
  skip_ending();
  return {};
}

CsvCell CsvRows::read_plain() {
  const std::size_t begin = at_;
  while (at_ < text_.size() && text_[at_] != delimiter_ && !is_ending(text_[at_])) ++at_;
  return keep(kept_.size(), text_.substr(begin, at_ - begin));
}

Result<CsvCell> CsvRows::read_quoted() {
  const std::uint64_t line = line_;
  const std::size_t kept_begin = kept_.size();
  for (;;) {
    const std::size_t begin = at_ + 1;
    const std::size_t end = text_.find('"', begin);
    if (end == std::string_view::npos)
      return refuse_at(line, ErrorCode::bad_input, "a quote is opened and never closed");
    line_ += count_endings(text_.substr(begin, end - begin));
    at_ = end + 1;
    const bool is_doubled = at_ < text_.size() && text_[at_] == '"';
    const CsvCell cell = keep(kept_begin, text_.substr(begin, end - begin + (is_doubled ? 1 : 0)));
    if (is_doubled) continue;
    if (at_ == text_.size() || text_[at_] == delimiter_ || is_ending(text_[at_])) return cell;
    return refuse_at(line_, ErrorCode::bad_input, "text after a closing quote; a quote inside a cell is written twice");
  }
}

CsvCell CsvRows::keep(std::size_t begin, std::string_view text) {
  kept_.append(text);
  return {begin, kept_.size() - begin};
}

void CsvRows::skip_ending() {
  const bool is_crlf = text_.substr(at_, 2) == "\r\n";
  at_ += is_crlf ? 2 : 1;
  ++line_;
}

bool CsvRows::is_row_empty() const {
  return std::all_of(row_.begin(), row_.end(), [](const CsvCell& cell) { return cell.length == 0; });
}

tl::unexpected<Error> CsvRows::refuse_at(std::uint64_t line, ErrorCode code, std::string_view what) const {
  return refuse(code, "{}, line {}: {}", name_, line, what);
}

}  // namespace hw::formats
