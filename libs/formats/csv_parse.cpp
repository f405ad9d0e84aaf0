#include <algorithm>

#include "libs/formats/csv.h"
#include "libs/formats/text_encoding.h"

namespace hw::formats {

class CsvParser {
 public:
  CsvParser(std::string_view text, const std::string& name, const CsvLimits& limits)
      : rows_(text, name, limits.columns_max, CsvTop::names) {
    table_.name_ = name;
    table_.delimiter_ = rows_.delimiter();
  }

  Result<CsvTable> parse() {
    HW_TRY(read_header());
    while (!rows_.is_over()) {
      HW_TRY(rows_.read());
      HW_TRY(add_row());
    }
    table_.text_ = rows_.take_texts();
    return std::move(table_);
  }

 private:
  Result<void> read_header() {
    do {
      if (rows_.is_over())
        return rows_.refuse_at(rows_.next_line(), ErrorCode::bad_input, "no row with the columns' names");
      HW_TRY(rows_.read());
    } while (rows_.is_row_empty());
    for (const CsvCell& cell : rows_.row()) table_.header_.emplace_back(CsvTable::trim(rows_.view(cell)));
    auto& names = table_.header_;
    while (!names.empty() && names.back().empty()) names.pop_back();
    if (names.empty()) {
      return rows_.refuse_at(rows_.line(), ErrorCode::bad_input, "no columns' names, only blanks");
    }
    return check_names();
  }

  Result<void> check_names() const {
    for (const std::string& column : table_.header_) {
      if (column.empty() || table_.find_column(column) == static_cast<std::size_t>(&column - table_.header_.data()))
        continue;
      return rows_.refuse_at(rows_.line(), ErrorCode::bad_input, fmt::format("two columns are named \"{}\"", column));
    }
    return {};
  }

  Result<void> add_row() {
    if (rows_.is_row_empty()) return {};
    std::vector<CsvCell>& row = rows_.row();
    const std::size_t columns = table_.header_.size();
    for (std::size_t i = columns; i < row.size(); ++i) {
      if (row[i].length == 0) continue;
      return rows_.refuse_at(rows_.line(), ErrorCode::bad_input,
                             fmt::format("{} cells, but the header has {}; is a quote missing?", row.size(), columns));
    }
    row.resize(columns, CsvCell{0, 0});
    table_.cells_.insert(table_.cells_.end(), row.begin(), row.end());
    table_.row_lines_.push_back(rows_.line());
    return {};
  }

  CsvRows rows_;
  CsvTable table_;
};

Result<CsvTable> parse_csv(std::string_view bytes, std::string name, const CsvLimits& limits) {
  if (bytes.size() > limits.bytes_max) {
    return refuse(ErrorCode::too_large, "{}: longer than {} bytes", name, limits.bytes_max);
  }
  const auto text = to_utf8(bytes);
  if (!text) return refuse(text.error().at(name));
  return CsvParser(*text, name, limits).parse();
}

}  // namespace hw::formats
