#pragma once
// The parts of json.h that read. Include json.h.

#include <concepts>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

#include <boost/json/value.hpp>

#include "libs/values/instant.h"
#include "libs/values/local_date.h"
#include "libs/values/result.h"

namespace hw::formats {

struct JsonLimits {
  std::size_t bytes_max = std::size_t{64} << 20;
  std::size_t depth_max = 64;
};

// A type that is a text in JSON: specialise with static T's parse and print.
template <class T>
struct JsonText;

template <>
struct JsonText<LocalDate> {
  static Result<LocalDate> parse(std::string_view text) { return parse_local_date(text); }
  static std::string print(LocalDate date) { return hw::print(date); }
};

template <>
struct JsonText<Instant> {
  static Result<Instant> parse(std::string_view text) { return parse_instant(text); }
  static std::string print(Instant instant) { return hw::print(instant); }
};

template <class T>
concept IsJsonText = requires(std::string_view text, const T& value) {
  { JsonText<T>::parse(text) } -> std::same_as<Result<T>>;
  { JsonText<T>::print(value) } -> std::same_as<std::string>;
};

// A member that must be there and may be null.
template <class T>
struct OrNull : std::optional<T> {
  using std::optional<T>::optional;
};

// A number printed digit by digit as it stands here: {"31627.020703"}.
struct ExactNumber {
  std::string text;
};

// The text as a tree. Refuses what is no JSON, duplicate keys, numbers beyond double's range, and the limits.
// Numbers are read correctly rounded.
Result<boost::json::value> parse_json_tree(std::string_view text, const JsonLimits& limits = {});

}  // namespace hw::formats
