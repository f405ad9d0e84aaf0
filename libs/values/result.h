#pragma once
// What a function gives back that may refuse: the value, or the Error that says why not.

#include <fmt/format.h>
#include <tl/expected.hpp>

#include "libs/values/error.h"

namespace hw {

template <class T>
using Result = tl::expected<T, Error>;

// return refuse(ErrorCode::bad_input, "line {}: no time", line);
template <class... Args>
tl::unexpected<Error> refuse(ErrorCode code, fmt::format_string<Args...> form, Args&&... args) {
  return tl::make_unexpected(Error{code, fmt::format(form, std::forward<Args>(args)...)});
}

inline tl::unexpected<Error> refuse(Error error) { return tl::make_unexpected(std::move(error)); }

}  // namespace hw
