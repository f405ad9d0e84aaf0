#include "libs/sql/postgres_values.h"

#include <bit>
#include <cstring>

#include <fmt/format.h>

namespace hw::sql {
namespace {

template <class Number>
std::string in_network_order(Number number) {
  std::string bytes;
  append_number(bytes, number);
  return bytes;
}

template <class Number>
Number from_network_order(std::string_view bytes) {
  HW_ASSERT(bytes.size() >= sizeof(Number), "a number has all its bytes");
  Number number = 0;
  for (std::size_t i = 0; i < sizeof number; ++i) {
    number = static_cast<Number>(number << 8 | static_cast<unsigned char>(bytes[i]));
  }
  return number;
}

// numeric_send: four int16 (count of digits, weight of the first one, sign, decimals shown), then digits of base
// 10,000. Sums of whole numbers come so.
std::int64_t whole_of_decimal(std::string_view bytes) {
  constexpr std::uint16_t negative = 0x4000;
  constexpr std::size_t head = 8;
  const auto part = [&](std::size_t at) { return from_network_order<std::uint16_t>(bytes.substr(at)); };
  const int digits = part(0);
  const int weight = static_cast<std::int16_t>(part(2));
  const std::uint16_t sign = part(4);
  HW_ASSERT(part(6) == 0 && (sign == 0 || sign == negative) && digits <= weight + 1, "a sum of whole numbers is whole");
  std::int64_t sum = 0;
  bool fits = true;
  for (int i = 0; i <= weight; ++i) {
    const std::int64_t digit = i < digits ? part(head + 2 * static_cast<std::size_t>(i)) : 0;
    fits = fits && !__builtin_mul_overflow(sum, 10'000, &sum) &&
           !__builtin_add_overflow(sum, sign == negative ? -digit : digit, &sum);
  }
  HW_ASSERT(fits, "a sum of whole numbers fits in 64 bits");
  return sum;
}

std::span<const std::byte> as_bytes(std::string_view bytes) {
  return {reinterpret_cast<const std::byte*>(bytes.data()), bytes.size()};
}

}  // namespace

PostgresArgument argument_of(const Parameter::Value& value) {
  if (const auto* number = std::get_if<std::int64_t>(&value)) {
    return {PostgresType::whole, false, in_network_order(static_cast<std::uint64_t>(*number))};
  }
  if (const auto* real = std::get_if<double>(&value)) {
    return {PostgresType::real, false, in_network_order(std::bit_cast<std::uint64_t>(*real))};
  }
  if (const auto* text = std::get_if<std::string_view>(&value)) {
    return {PostgresType::text, false, std::string(*text)};
  }
  if (const auto* bytes = std::get_if<std::span<const std::byte>>(&value)) {
    return {PostgresType::bytes, false, std::string(reinterpret_cast<const char*>(bytes->data()), bytes->size())};
  }
  return {PostgresType::unknown, true, {}};
}

PostgresType type_of(const Parameter::Value& value) {
  if (std::holds_alternative<std::int64_t>(value)) return PostgresType::whole;
  if (std::holds_alternative<double>(value)) return PostgresType::real;
  if (std::holds_alternative<std::string_view>(value)) return PostgresType::text;
  if (std::holds_alternative<std::span<const std::byte>>(value)) return PostgresType::bytes;
  return PostgresType::unknown;
}

void append_copied(std::string& out, const Parameter::Value& value) {
  const auto append_piece = [&](std::string_view bytes) {
    append_number(out, static_cast<std::uint32_t>(bytes.size()));
    out += bytes;
  };
  if (const auto* number = std::get_if<std::int64_t>(&value)) {
    append_number(out, std::uint32_t{sizeof *number});
    append_number(out, static_cast<std::uint64_t>(*number));
  } else if (const auto* real = std::get_if<double>(&value)) {
    append_number(out, std::uint32_t{sizeof *real});
    append_number(out, std::bit_cast<std::uint64_t>(*real));
  } else if (const auto* text = std::get_if<std::string_view>(&value)) {
    append_piece(*text);
  } else if (const auto* bytes = std::get_if<std::span<const std::byte>>(&value)) {
    append_piece({reinterpret_cast<const char*>(bytes->data()), bytes->size()});
  } else {
    append_number(out, ~std::uint32_t{0});
  }
}

Parameter::Value value_of(PostgresType type, std::string_view bytes) {
  switch (type) {
    case PostgresType::boolean:
      return std::int64_t{bytes.front() != 0};
    case PostgresType::whole:
      return static_cast<std::int64_t>(from_network_order<std::uint64_t>(bytes));
    case PostgresType::medium:
      return std::int64_t{static_cast<std::int32_t>(from_network_order<std::uint32_t>(bytes))};
    case PostgresType::small:
      return std::int64_t{static_cast<std::int16_t>(from_network_order<std::uint16_t>(bytes))};
    case PostgresType::real:
      return std::bit_cast<double>(from_network_order<std::uint64_t>(bytes));
    case PostgresType::single_real:
      return double{std::bit_cast<float>(from_network_order<std::uint32_t>(bytes))};
    case PostgresType::decimal:
      return whole_of_decimal(bytes);
    case PostgresType::text:
    case PostgresType::varying:
    case PostgresType::name:
      return bytes;
    case PostgresType::bytes:
      return as_bytes(bytes);
    case PostgresType::unknown:
      break;
  }
  fail_assertion(fmt::format("PostgreSQL's type {}", static_cast<unsigned>(type)).c_str(),
                 "a column has a type that is known here", __FILE__, __LINE__);
}

}  // namespace hw::sql
