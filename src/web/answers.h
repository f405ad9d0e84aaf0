#pragma once
// From a use case's Result to an HTTP response, in one place.

#include <charconv>
#include <cmath>
#include <exception>
#include <type_traits>

#include "libs/formats/json.h"
#include "libs/http/message.h"
#include "libs/http/problem.h"
#include "libs/sql/storage_failed.h"
#include "libs/values/local_date.h"

namespace hw::web {

template <class View>
http::Response answer(const View& view) {
  return http::Response::json(formats::print_json(view));
}

template <class View>
http::Response answer(const Result<View>& result) {
  return result ? answer(*result) : http::problem(result.error());
}

// Refuses what somebody would enter in another person's name. Programs (no user) may enter in any.
inline Result<void> check_by(const http::Request& request, const std::string& by) {
  if (request.user.empty() || by == request.user) return {};
  return refuse(ErrorCode::not_allowed, Saying{"not-you", {{"name", request.user}}},
                "by: {} has signed in, and nobody enters in another's name", request.user);
}

// The request's body as an Edit, given to `use`, whose Result is the answer.
template <class Edit, class Use>
http::Response answer_edit(const http::Request& request, Use use) {
  const auto edit = formats::parse_json<Edit>(request.body);
  if (!edit) return http::problem(edit.error());
  if constexpr (requires { edit->by; }) {
    if (const auto checked = check_by(request, edit->by); !checked) return http::problem(checked.error());
  }
  return answer(use(*edit));
}

// A date of the query; nothing where it is absent.
inline Result<std::optional<LocalDate>> query_date(const http::Request& request, std::string_view name) {
  const auto text = request.query_value(name);
  if (!text) return std::optional<LocalDate>{};
  const auto date = parse_local_date(*text);
  if (!date) return refuse(date.error().at(name));
  return std::optional{*date};
}

// A number of the query, whole or not; nothing where it is absent.
template <class Number>
Result<std::optional<Number>> query_number(const http::Request& request, std::string_view name) {
  const auto text = request.query_value(name);
  if (!text) return std::optional<Number>{};
  Number number{};
  const auto [end, error] = std::from_chars(text->data(), text->data() + text->size(), number);
  const bool is_finite = std::isfinite(static_cast<double>(number));  // "nan" and "inf" are read as numbers
  if (error == std::errc{} && end == text->data() + text->size() && is_finite) return std::optional{number};
  constexpr std::string_view right = std::is_integral_v<Number> ? "whole number" : "number; for example 1500";
  return refuse(ErrorCode::bad_input, "{}: \"{}\" is no {}", name, text->substr(0, 60), right);
}

// What `ask` gives; where the one exception comes that may come, the disk failed: nothing was kept, and the answer says
// so.
template <class Ask>
auto unless_the_disk_fails(const Ask& ask) -> decltype(ask()) {
  try {
    return ask();
  } catch (const sql::StorageFailed& failed) {
    Error error = failed.error().at("nothing was saved");
    if (!error.saying) error.saying = Saying{error.code == ErrorCode::disk_full ? "disk-full" : "disk-failed"};
    return http::problem(error);
  }
}

// A handler of which that holds.
inline http::Handler guarded(http::Handler handler) {
  return [handler = std::move(handler)](http::Request request) {
    return unless_the_disk_fails([&] { return handler(std::move(request)); });
  };
}

}  // namespace hw::web
