#pragma once
// The templates of connection.h. Include connection.h.

#include <array>
#include <limits>

#include "libs/sql/connection.h"

namespace hw::sql {
namespace column_read {

template <class T>
inline constexpr bool is_optional = false;
template <class T>
inline constexpr bool is_optional<std::optional<T>> = true;

template <class T, class Stored>
const Stored& as(const Parameter::Value& value) {
  HW_ASSERT(std::holds_alternative<Stored>(value), "a column is read as the type that it has");
  return std::get<Stored>(value);
}

template <class T>
T read(const Parameter::Value& value) {
  if constexpr (is_optional<T>) {
    if (std::holds_alternative<std::monostate>(value)) return std::nullopt;
    return read<typename T::value_type>(value);
  } else if constexpr (std::is_integral_v<T>) {
    const std::int64_t number = as<T, std::int64_t>(value);
    HW_ASSERT(
        number >= std::int64_t{std::numeric_limits<T>::min()} && number <= std::int64_t{std::numeric_limits<T>::max()},
        "a column's number fits the type it is read as");
    return static_cast<T>(number);
  } else if constexpr (std::is_same_v<T, Blob>) {
    const auto& bytes = as<T, std::span<const std::byte>>(value);
    return Blob(bytes.begin(), bytes.end());
  } else if constexpr (std::is_same_v<T, double>) {
    return as<T, double>(value);
  } else {
    static_assert(std::is_same_v<T, std::string> || std::is_same_v<T, std::string_view>, "not a column's type");
    return T(as<T, std::string_view>(value));
  }
}

}  // namespace column_read

template <class T>
T Rows::get(int column) const {
  return column_read::read<T>(statement_->column(column));
}

template <class... T>
std::tuple<T...> Rows::get_all() const {
  return [this]<std::size_t... column>(std::index_sequence<column...>) {
    return std::tuple<T...>(get<T>(static_cast<int>(column))...);
  }
  (std::index_sequence_for<T...>());
}

template <class... Arguments>
Result<std::int64_t> Connection::execute(std::string_view sql, const Arguments&... arguments) {
  return execute_with(sql, std::array<Parameter, sizeof...(Arguments)>{Parameter(arguments)...});
}

template <class... Arguments>
Result<Rows> Connection::query(std::string_view sql, const Arguments&... arguments) {
  return query_with(sql, std::array<Parameter, sizeof...(Arguments)>{Parameter(arguments)...});
}

template <class... Arguments>
Result<Rows> Connection::stream(std::string_view sql, const Arguments&... arguments) {
  return stream_with(sql, std::array<Parameter, sizeof...(Arguments)>{Parameter(arguments)...});
}

template <class T, class... Arguments>
Result<std::optional<T>> Connection::query_value(std::string_view sql, const Arguments&... arguments) {
  auto rows = query(sql, arguments...);
  if (!rows) return refuse(std::move(rows.error()));
  if (!rows->next()) return std::optional<T>();
  return std::optional<T>(rows->template get<T>(0));
}

}  // namespace hw::sql
