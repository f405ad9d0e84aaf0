#include "libs/formats/csv.h"

#include <algorithm>
#include <charconv>
#include <cmath>

#include "libs/values/assert.h"

namespace hw::formats {
namespace {

char lower(char letter) { return letter >= 'A' && letter <= 'Z' ? static_cast<char>(letter - 'A' + 'a') : letter; }

bool is_like(std::string_view a, std::string_view b) {
  return std::equal(a.begin(), a.end(), b.begin(), b.end(), [](char x, char y) { return lower(x) == lower(y); });
}

// A quote around everything that a reader could take for something else; the likeliest delimiters of other countries
// among it.
void print_cell(std::string& out, std::string_view cell) {
  const bool has_edge_blank = cell.starts_with(' ') || cell.ends_with(' ');
  if (cell.find_first_of(",;\t\"\r\n") == std::string_view::npos && !has_edge_blank) {
    out += cell;
    return;
  }
  out += '"';
  for (const char letter : cell) out.append(letter == '"' ? 2 : 1, letter);
  out += '"';
}

void print_row(std::string& out, std::span<const std::string> cells, char delimiter) {
  for (std::size_t i = 0; i < cells.size(); ++i) {
    if (i > 0) out += delimiter;
    print_cell(out, cells[i]);
  }
  out += "\r\n";
}

}  // namespace

std::string_view CsvTable::trim(std::string_view text) {
  const std::size_t begin = text.find_first_not_of(" \t");
  if (begin == std::string_view::npos) return {};
  return text.substr(begin, text.find_last_not_of(" \t") - begin + 1);
}

std::optional<std::size_t> CsvTable::find_column(std::string_view header_name) const {
  const auto found = std::find_if(header_.begin(), header_.end(),
                                  [&](const std::string& name) { return is_like(name, trim(header_name)); });
  if (found == header_.end()) return std::nullopt;
  return static_cast<std::size_t>(found - header_.begin());
}

Result<std::size_t> CsvTable::column(std::string_view header_name) const {
  if (const auto found = find_column(header_name)) return *found;
  return refuse(ErrorCode::bad_input, "{}: no column \"{}\"; there are {}", name_, header_name,
                fmt::join(header_, ", "));
}

std::string_view CsvTable::text(std::size_t row, std::size_t column) const {
  HW_ASSERT(row < row_count() && column < header_.size(), "the cell is one of the table's");
  const CsvCell cell = cells_[row * header_.size() + column];
  return std::string_view(text_).substr(cell.begin, cell.length);
}

Result<std::optional<double>> CsvTable::number(std::size_t row, std::size_t column) const {
  const std::string_view cell = trim(text(row, column));
  if (cell.empty()) return std::optional<double>();
  std::string digits(cell.starts_with('+') && !cell.starts_with("+-") ? cell.substr(1) : cell);
  const bool has_point = digits.find('.') != std::string::npos;
  if (delimiter_ != ',' && !has_point) std::replace(digits.begin(), digits.end(), ',', '.');
  double number = 0;
  const auto read = std::from_chars(digits.data(), digits.data() + digits.size(), number);
  if (read.ec == std::errc() && read.ptr == digits.data() + digits.size() && std::isfinite(number)) {
    return std::optional(number);
  }
  return refuse(ErrorCode::bad_input, "{}: must be a number such as 1234.5 without marks between thousands, not \"{}\"",
                place(row, column), cell);
}

std::string CsvTable::place(std::size_t row, std::size_t column) const {
  return fmt::format("{}, line {}, column {} ({})", name_, line(row), column + 1, header_[column]);
}

std::string harmless_cell(std::string_view text) {
  constexpr std::string_view begins_formula = "=+-@\t\r\n";
  const bool is_harmless = text.empty() || begins_formula.find(text.front()) == std::string_view::npos;
  return is_harmless ? std::string{text} : "'" + std::string{text};
}

std::string print_csv(std::span<const std::string> header, std::span<const std::vector<std::string>> rows,
                      char delimiter) {
  std::string out;
  print_row(out, header, delimiter);
  for (const auto& row : rows) {
    HW_ASSERT(row.size() == header.size(), "a row is as long as the header");
    print_row(out, row, delimiter);
  }
  return out;
}

}  // namespace hw::formats
