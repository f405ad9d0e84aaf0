#pragma once
// PostgreSQL's binary form of values, both ways; only this folder's .cpp files include it. Numbers lie in network
// order.

#include <string>
#include <string_view>

#include "libs/sql/value.h"

namespace hw::sql {

// Numbers of PostgreSQL's types (catalog/pg_type.dat).
enum class PostgresType : unsigned {
  unknown = 0,  // the server finds out
  boolean = 16,
  bytes = 17,
  name = 19,
  whole = 20,
  small = 21,
  medium = 23,
  text = 25,
  single_real = 700,
  real = 701,
  varying = 1043,
  decimal = 1700,
};

// One argument in binary form.
struct PostgresArgument {
  PostgresType type = PostgresType::unknown;
  bool is_null = false;
  std::string bytes;
};
PostgresArgument argument_of(const Parameter::Value& value);

// The type of what argument_of makes.
PostgresType type_of(const Parameter::Value& value);

// A value as binary COPY has it: its length, -1 for null, and its bytes.
void append_copied(std::string& out, const Parameter::Value& value);

template <class Number>
void append_number(std::string& out, Number number) {
  for (std::size_t i = 0; i < sizeof number; ++i) {
    out += static_cast<char>(number >> 8 * (sizeof number - 1 - i) & 0xff);
  }
}

// A column's value. A type that no statement of ours gives, and a decimal that is no whole number of 64 bits, is our
// own mistake (assertion). Texts and bytes look into `bytes`.
Parameter::Value value_of(PostgresType type, std::string_view bytes);

}  // namespace hw::sql
