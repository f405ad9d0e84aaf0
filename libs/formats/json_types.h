#pragma once
// What JSON can be made of beyond what the language itself has. Include json.h.

#include <concepts>
#include <map>
#include <optional>
#include <string>
#include <string_view>

#include <boost/describe/class.hpp>
#include <boost/describe/members.hpp>
#include <boost/json/value.hpp>
#include <boost/mp11/algorithm.hpp>

#include "libs/formats/enum_words.h"
#include "libs/values/instant.h"
#include "libs/values/local_date.h"
#include "libs/values/result.h"
#include "libs/values/saying.h"

namespace hw {

BOOST_DESCRIBE_STRUCT(Saying, (), (code, texts, numbers))

}  // namespace hw

namespace hw::formats {

// A type that is a text in JSON: specialise with a static parse and print.
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
  bool operator==(const OrNull& other) const {
    return static_cast<const std::optional<T>&>(*this) == static_cast<const std::optional<T>&>(other);
  }
};

template <class T>
OrNull<T> or_null(const std::optional<T>& value) {
  return value ? OrNull<T>(*value) : OrNull<T>();
}

// A number printed digit by digit as it stands here: {"31627.020703"}.
struct ExactNumber {
  std::string text;
};

template <class T>
concept JsonInteger = std::integral<T> && !std::same_as<T, bool> && !std::same_as<T, char>;

template <class T>
concept DescribedStruct = boost::describe::has_describe_members<T>::value && !IsJsonText<T>;

template <DescribedStruct T>
using JsonMembers = boost::describe::describe_members<T, boost::describe::mod_public | boost::describe::mod_inherited>;

template <class T>
inline constexpr bool is_optional_member = false;
template <class T>
inline constexpr bool is_optional_member<std::optional<T>> = true;

}  // namespace hw::formats
