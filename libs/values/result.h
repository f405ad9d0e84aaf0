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

// The same for a sentence that people meet, so that it can be said in another language.
// return refuse(ErrorCode::conflict, Saying{"undo-twice"}, "it was taken back already");
template <class... Args>
tl::unexpected<Error> refuse(ErrorCode code, Saying saying, fmt::format_string<Args...> form, Args&&... args) {
  return tl::make_unexpected(Error{code, fmt::format(form, std::forward<Args>(args)...), std::move(saying)});
}

inline tl::unexpected<Error> refuse(Error error) { return tl::make_unexpected(std::move(error)); }

}  // namespace hw

// HW_TRY(step()); hands a refusal of the step on to the caller.
#define HW_TRY(step)                                                                \
  do {                                                                              \
    if (auto tried = (step); !tried) return ::hw::refuse(std::move(tried.error())); \
  } while (false)

// HW_TAKE(rows, db.query("...")); the same for a step that gives a value: afterwards `rows` is the value.
#define HW_TAKE(name, step)                                                      \
  auto name##_or_error = (step);                                                 \
  if (!name##_or_error) return ::hw::refuse(std::move(name##_or_error.error())); \
  auto& name = *name##_or_error
