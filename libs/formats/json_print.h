#pragma once
// The parts of json.h that print. Include json.h.

#include <array>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "libs/formats/json_types.h"
#include "libs/values/assert.h"

namespace hw::formats {

// One function per kind of type; each appends one JSON value to `out`.
struct JsonPrinting {
  std::string& out;

  void print(bool value) { out += value ? "true" : "false"; }
  void print(double number);              // must be finite
  void print(const ExactNumber& number);  // must be a number as RFC 8259 has it
  void print(std::string_view text);
  void print(const std::string& text) { print(std::string_view(text)); }
  void print(const char* text) { print(std::string_view(text)); }
  void print(const boost::json::value& tree);
  void print(JsonInteger auto number) { out += std::to_string(number); }
  void print(DescribedEnum auto value) { print(std::string_view(print_word(value))); }

  template <IsJsonText T>
  void print(const T& value) {
    print(std::string_view(JsonText<T>::print(value)));
  }

  template <class T>
  void print(const std::optional<T>& maybe) {
    if (maybe) {
      print(*maybe);
    } else {
      out += "null";
    }
  }

  template <class T>
  void print(const OrNull<T>& maybe) {
    print(static_cast<const std::optional<T>&>(maybe));
  }

  template <class T>
  void print(const std::vector<T>& elements) {
    print_list<T>(elements);
  }

  template <class T, std::size_t length>
  void print(const std::array<T, length>& elements) {
    print_list<T>(elements);
  }

  template <class T, class Order, class Memory>
  void print(const std::map<std::string, T, Order, Memory>& members) {
    char before = '{';
    for (const auto& [key, value] : members) print_member(before, key, value);
    close(before, '{', '}');
  }

  template <DescribedStruct T>
  void print(const T& value) {
    char before = '{';
    boost::mp11::mp_for_each<JsonMembers<T>>([&](auto member) {
      const auto& field = value.*member.pointer;
      if constexpr (is_optional_member<std::remove_cvref_t<decltype(field)>>) {
        if (!field) return;
      }
      print_member(before, member.name, field);
    });
    close(before, '{', '}');
  }

 private:
  template <class T>
  void print_list(const auto& elements) {
    char before = '[';
    for (const T& element : elements) {
      out += std::exchange(before, ',');
      print(element);
    }
    close(before, '[', ']');
  }

  // `before` is the opening bracket in front of the first member and the comma in front of the others.
  void print_member(char& before, std::string_view key, const auto& value) {
    out += std::exchange(before, ',');
    print(key);
    out += ':';
    print(value);
  }

  void close(char before, char opening, char closing) {
    if (before == opening) out += opening;
    out += closing;
  }

  void print_object(const boost::json::object& object);
};

}  // namespace hw::formats
