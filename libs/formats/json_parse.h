#pragma once
// The parts of json.h that read. Include json.h.

#include <array>
#include <cstddef>
#include <cstdint>
#include <limits>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include <boost/json/array.hpp>
#include <boost/json/object.hpp>

#include "libs/formats/json_types.h"

namespace hw::formats {

struct JsonLimits {
  std::size_t bytes_max = std::size_t{16} << 20;
  std::size_t depth_max = 64;
};

// The text as a tree. Refuses what is no JSON, duplicate keys, numbers beyond double's range, and the limits. Numbers
// are read correctly rounded. A byte order mark in front is skipped.
Result<boost::json::value> parse_json_tree(std::string_view text, const JsonLimits& limits = {});

// Where a value stands in its document: a list from the leaf up, turned into text only when something is wrong.
struct JsonPlace {
  const JsonPlace* above = nullptr;  // null at the root
  std::string_view key{};
  std::optional<std::size_t> index{};

  std::string print() const;  // "tasks[3].interval"; empty at the root
  Error error(std::string_view what) const;
  Error wrong_kind(std::string_view wanted, const boost::json::value& found) const;
};

// One function per kind of type; each fills `out` from the tree.
struct JsonReading {
  using Tree = boost::json::value;
  using Place = JsonPlace;

  static Result<void> read(const Tree& tree, bool& out, const Place& place);
  static Result<void> read(const Tree& tree, double& out, const Place& place);
  static Result<void> read(const Tree& tree, std::string& out, const Place& place);
  static Result<void> read(const Tree& tree, Tree& out, const Place& place);

  template <JsonInteger T>
  static Result<void> read(const Tree& tree, T& out, const Place& place) {
    if (const auto* number = tree.if_int64(); number != nullptr && std::in_range<T>(*number)) {
      out = static_cast<T>(*number);
    } else if (const auto* large = tree.if_uint64(); large != nullptr && std::in_range<T>(*large)) {
      out = static_cast<T>(*large);
    } else {
      return refuse(wrong_integer(tree, place, std::to_string(std::numeric_limits<T>::min()),
                                  std::to_string(std::numeric_limits<T>::max())));
    }
    return {};
  }

  template <IsJsonText T>
  static Result<void> read(const Tree& tree, T& out, const Place& place) {
    std::string text;
    if (auto read_text = read(tree, text, place); !read_text) return read_text;
    auto parsed = JsonText<T>::parse(text);
    if (!parsed) return refuse(place.error(parsed.error().message));
    out = std::move(*parsed);
    return {};
  }

  template <DescribedEnum E>
  static Result<void> read(const Tree& tree, E& out, const Place& place) {
    std::string word;
    if (auto read_text = read(tree, word, place); !read_text) return read_text;
    const auto value = parse_word<E>(word);
    if (!value) return refuse(place.error(fmt::format("must be one of {}, not \"{}\"", print_words<E>(), word)));
    out = *value;
    return {};
  }

  template <class T>
  static Result<void> read(const Tree& tree, std::optional<T>& out, const Place& place) {
    out.reset();
    if (tree.is_null()) return {};
    return read(tree, out.emplace(), place);
  }

  template <class T>
  static Result<void> read(const Tree& tree, OrNull<T>& out, const Place& place) {
    return read(tree, static_cast<std::optional<T>&>(out), place);
  }

  template <class T>
  static Result<void> read(const Tree& tree, std::vector<T>& out, const Place& place) {
    const auto* array = tree.if_array();
    if (array == nullptr) return refuse(place.wrong_kind("a list", tree));
    out.clear();
    out.reserve(array->size());
    for (std::size_t index = 0; index < array->size(); ++index) {
      T element{};
      if (auto done = read((*array)[index], element, Place{&place, {}, index}); !done) return done;
      out.push_back(std::move(element));
    }
    return {};
  }

  template <class T, std::size_t length>
  static Result<void> read(const Tree& tree, std::array<T, length>& out, const Place& place) {
    const auto* array = tree.if_array();
    if (array == nullptr) return refuse(place.wrong_kind("a list", tree));
    if (array->size() != length) {
      return refuse(place.error(fmt::format("must be a list of {}, not of {}", length, array->size())));
    }
    for (std::size_t index = 0; index < length; ++index) {
      if (auto done = read((*array)[index], out[index], Place{&place, {}, index}); !done) return done;
    }
    return {};
  }

  template <class T, class Order, class Memory>
  static Result<void> read(const Tree& tree, std::map<std::string, T, Order, Memory>& out, const Place& place) {
    const auto* object = tree.if_object();
    if (object == nullptr) return refuse(place.wrong_kind("an object", tree));
    out.clear();
    for (const auto& member : *object) {
      const std::string_view key(member.key().data(), member.key().size());
      if (auto done = read(member.value(), out[std::string(key)], Place{&place, key, {}}); !done) return done;
    }
    return {};
  }

  template <DescribedStruct T>
  static Result<void> read(const Tree& tree, T& out, const Place& place) {
    const auto* object = tree.if_object();
    if (object == nullptr) return refuse(place.wrong_kind("an object", tree));
    Result<void> outcome;
    std::size_t known_count = 0;
    boost::mp11::mp_for_each<JsonMembers<T>>([&](auto member) {
      if (!outcome) return;
      const Tree* field = object->if_contains(member.name);
      known_count += field != nullptr ? 1 : 0;
      outcome = read_field(field, out.*member.pointer, Place{&place, member.name, {}});
    });
    if (outcome && known_count < object->size()) return refuse(unknown_field(*object, field_names<T>(), place));
    return outcome;
  }

 private:
  template <class T>
  static Result<void> read_field(const Tree* field, T& out, const Place& place) {
    if (field != nullptr) return read(*field, out, place);
    if constexpr (is_optional_member<T>) {
      out.reset();
      return {};
    } else {
      return refuse(place.error("is missing"));
    }
  }

  template <DescribedStruct T>
  static std::vector<std::string_view> field_names() {
    std::vector<std::string_view> names;
    boost::mp11::mp_for_each<JsonMembers<T>>([&](auto member) { names.emplace_back(member.name); });
    return names;
  }

  static Error wrong_integer(const Tree& tree, const Place& place, std::string_view min, std::string_view max);
  static Error unknown_field(const boost::json::object& object, const std::vector<std::string_view>& known,
                             const Place& place);
};

}  // namespace hw::formats
