#pragma once
// Enumerators as words, '_' as blank: the enumerator top_up is "top up". For enums with BOOST_DESCRIBE_ENUM.

#include <algorithm>
#include <optional>
#include <string>
#include <string_view>
#include <type_traits>

#include <boost/describe/enum.hpp>
#include <boost/describe/enumerators.hpp>
#include <boost/mp11/algorithm.hpp>

namespace hw::formats {

template <class E>
concept DescribedEnum = std::is_enum_v<E> && boost::describe::has_describe_enumerators<E>::value;

namespace enum_words {
inline std::string word(const char* enumerator) {
  std::string word(enumerator);
  std::replace(word.begin(), word.end(), '_', ' ');
  return word;
}
}  // namespace enum_words

// Empty for a number that is no enumerator.
template <DescribedEnum E>
std::string print_word(E value) {
  std::string word;
  boost::mp11::mp_for_each<boost::describe::describe_enumerators<E>>([&](auto enumerator) {
    if (enumerator.value == value) word = enum_words::word(enumerator.name);
  });
  return word;
}

// Exactly one of the words, or nothing.
template <DescribedEnum E>
std::optional<E> parse_word(std::string_view word) {
  std::optional<E> found;
  boost::mp11::mp_for_each<boost::describe::describe_enumerators<E>>([&](auto enumerator) {
    if (enum_words::word(enumerator.name) == word) found = enumerator.value;
  });
  return found;
}

// "inspect", "top up", ...: for messages.
template <DescribedEnum E>
std::string print_words() {
  std::string words;
  boost::mp11::mp_for_each<boost::describe::describe_enumerators<E>>(
      [&](auto enumerator) { words += (words.empty() ? "\"" : ", \"") + enum_words::word(enumerator.name) + "\""; });
  return words;
}

}  // namespace hw::formats
