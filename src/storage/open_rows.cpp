#include "src/storage/open_rows.h"

#include <cmath>

#include <boost/json/parse.hpp>

#include "libs/values/secret.h"

namespace hw::storage {
namespace {

namespace json = boost::json;

json::value open_value(const sql::Parameter::Value& value) {
  if (const auto* whole = std::get_if<std::int64_t>(&value)) return *whole;
  if (const auto* number = std::get_if<double>(&value)) return *number;
  if (const auto* text = std::get_if<std::string_view>(&value)) return json::string{*text};
  if (const auto* blob = std::get_if<std::span<const std::byte>>(&value)) {
    const std::string_view bytes{reinterpret_cast<const char*>(blob->data()), blob->size()};
    return json::object{{"base64", print_base64url(bytes)}};
  }
  return nullptr;
}

sql::Blob blob_of(const std::string& bytes) {
  const auto* first = reinterpret_cast<const std::byte*>(bytes.data());
  return sql::Blob(first, first + bytes.size());
}

Result<Cell> bytes_in(const json::object& holder, const ReadBytes& read) {
  if (const auto* text = holder.if_contains("base64"); text != nullptr && text->is_string()) {
    return Cell{blob_of(parse_base64url(text->get_string()))};
  }
  const auto* file = holder.if_contains("file");
  if (file == nullptr || !file->is_string()) {
    return refuse(ErrorCode::bad_input, "{{\"base64\": ...}} or {{\"file\": ...}} is right");
  }
  HW_TAKE(bytes, read(std::string{file->get_string()}));
  return Cell{blob_of(bytes)};
}

Result<Cell> cell_of(const json::value& value, const ReadBytes& read) {
  if (value.is_null()) return Cell{};
  if (value.is_int64()) return Cell{value.get_int64()};
  if (value.is_double() && std::isfinite(value.get_double())) return Cell{value.get_double()};
  if (value.is_string()) return Cell{std::string{value.get_string()}};
  if (value.is_object()) return bytes_in(value.get_object(), read);
  return refuse(ErrorCode::bad_input, "a text, a number, null or bytes are right");
}

}  // namespace

json::object open_row(const std::vector<std::string>& columns, const sql::Rows& rows) {
  json::object row;
  for (std::size_t i = 0; i < columns.size(); ++i) row[columns[i]] = open_value(rows.value(static_cast<int>(i)));
  return row;
}

Result<std::vector<Cell>> parse_open_row(std::string_view line, const std::vector<std::string>& columns,
                                         const ReadBytes& read) {
  boost::system::error_code error;
  const json::value value = json::parse(line, error);
  if (error || !value.is_object()) return refuse(ErrorCode::bad_input, "a JSON object is right");
  const json::object& row = value.get_object();
  std::vector<Cell> cells;
  for (const std::string& column : columns) {
    const json::value* at = row.if_contains(column);
    if (at == nullptr) return refuse(ErrorCode::bad_input, "{}: it is missing", column);
    auto cell = cell_of(*at, read);
    if (!cell) return refuse(cell.error().at(column));
    cells.push_back(std::move(*cell));
  }
  for (const auto& [key, unused] : row) {
    const bool is_known = std::find(columns.begin(), columns.end(), std::string{key}) != columns.end();
    if (!is_known) return refuse(ErrorCode::bad_input, "{}: there is no such column", std::string{key});
  }
  return cells;
}

}  // namespace hw::storage
