#pragma once
// What comes back from the database has been checked when it went in; if it does not read, the file is damaged.

#include <optional>
#include <string_view>

#include "libs/values/instant.h"
#include "libs/values/result.h"

namespace hw::storage {

// Turns a refusal to read a stored value into `corrupt`, with the column's name.
template <class T>
Result<T> stored(Result<T> read, std::string_view column) {
  if (read) return read;
  return refuse(ErrorCode::corrupt, "the database's {} does not read: {}", column, read.error().message);
}

inline std::optional<Instant> instant_of(std::optional<std::int64_t> millis) {
  return millis ? std::optional{Instant::from_millis(*millis)} : std::nullopt;
}

inline std::optional<std::int64_t> millis_of(const std::optional<Instant>& at) {
  return at ? std::optional{at->as_millis()} : std::nullopt;
}

}  // namespace hw::storage
