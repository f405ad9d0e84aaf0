#include "libs/sql/bulk_rows.h"

#include <algorithm>
#include <cmath>

#include <fmt/ranges.h>

namespace hw::sql {

Result<void> check_bulk_value(const Parameter::Value& value, std::size_t column) {
  const auto* real = std::get_if<double>(&value);
  if (real != nullptr && std::isnan(*real)) {
    return refuse(ErrorCode::bad_input, "column {}: not a number; unknown is stored as null", column);
  }
  const auto* text = std::get_if<std::string_view>(&value);
  if (text != nullptr && text->find('\0') != std::string_view::npos) {
    return refuse(ErrorCode::bad_input, "column {}: a text with the character 0", column);
  }
  return {};
}

std::string replacing_clause(const BulkTarget& target) {
  if (target.key.empty()) return "";
  std::vector<std::string> replaced;
  if (target.present == Present::kept) return fmt::format(" on conflict({}) do nothing", fmt::join(target.key, ", "));
  for (const std::string& column : target.columns) {
    const bool is_of_key = std::find(target.key.begin(), target.key.end(), column) != target.key.end();
    if (!is_of_key) replaced.push_back(fmt::format("{0} = excluded.{0}", column));
  }
  return fmt::format(" on conflict({}) do {}", fmt::join(target.key, ", "),
                     replaced.empty() ? "nothing" : fmt::format("update set {}", fmt::join(replaced, ", ")));
}

}  // namespace hw::sql
