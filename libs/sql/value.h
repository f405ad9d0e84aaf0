#pragma once
// The five kinds of value that both databases keep alike: whole number (64 bits), double, text (UTF-8), bytes, null.

#include <concepts>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "libs/values/assert.h"

namespace hw::sql {

using Blob = std::vector<std::byte>;

// One argument of a statement. It only looks at texts and blobs, which must live until the call returns.
class Parameter {
 public:
  using Value = std::variant<std::monostate, std::int64_t, double, std::string_view, std::span<const std::byte>>;

  Parameter(Value value) : value_(value) {}
  Parameter(std::nullptr_t) {}
  Parameter(std::nullopt_t) {}
  Parameter(std::same_as<bool> auto flag) : value_(std::int64_t{flag}) {}
  template <std::integral Number>
  requires(!std::same_as<Number, bool>) Parameter(Number number) : value_(static_cast<std::int64_t>(number)) {
    HW_ASSERT(std::in_range<std::int64_t>(number), "a whole number fits in 64 bits with sign");
  }
  Parameter(double number) : value_(number) {}
  Parameter(const char* text) : value_(std::string_view(text)) {}
  Parameter(std::string_view text) : value_(text) {}
  Parameter(const std::string& text) : value_(std::string_view(text)) {}
  Parameter(std::span<const std::byte> bytes) : value_(bytes) {}
  Parameter(const Blob& bytes) : value_(std::span<const std::byte>(bytes)) {}
  template <class T>
  Parameter(const std::optional<T>& maybe) {
    if (maybe) value_ = Parameter(*maybe).value_;
  }

  const Value& value() const { return value_; }

 private:
  Value value_;
};

}  // namespace hw::sql
