#pragma once
// JSON to and from plain structs, by their Boost.Describe descriptions:
//
//   struct Task { std::string name; double interval = 0; std::optional<std::string> note; };
//   BOOST_DESCRIBE_STRUCT(Task, (), (name, interval, note))
//   Result<Task> task = parse_json<Task>(text);
//   std::string text = print_json(task);
//
// A struct is an object with exactly its members: unknown, missing and duplicate fields are refused. Also:
//   bool, integers (range checked; 30.0 is no integer), double (finite), std::string (UTF-8)
//   std::vector, std::array, std::map<std::string, T>
//   std::optional<T>   may be absent or null; not printed while empty (null inside a vector or map)
//   OrNull<T>          must be there, may be null; printed as null while empty
//   described enums    their words, '_' as blank: top_up is "top up"
//   LocalDate, Instant their texts; your own type by a specialisation of JsonText
//   ExactNumber        a number with all its digits (printing only)
//   boost::json::value whatever it is
// Errors name the path: "tasks[3].interval: must be a number, not a text".

#include <string>
#include <string_view>

#include "libs/formats/json_parse.h"
#include "libs/formats/json_print.h"

namespace hw::formats {

// Reads the whole text as one T. Errors: bad_input (with line and column where it is no JSON at all, with the path
// where it is not a T), too_large beyond the limits.
template <class T>
Result<T> parse_json(std::string_view text, const JsonLimits& limits = {}) {
  const auto tree = parse_json_tree(text, limits);
  if (!tree) return refuse(tree.error());
  T value{};
  if (auto read = JsonReading::read(*tree, value, JsonPlace{}); !read) return refuse(read.error());
  return value;
}

// The value on one line, members in their order, doubles in the fewest digits that read back to the same bits. A double
// that is not finite is our own mistake (assertion). Bytes that are no UTF-8 become U+FFFD.
template <class T>
std::string print_json(const T& value) {
  std::string out;
  JsonPrinting{out}.print(value);
  return out;
}

}  // namespace hw::formats
