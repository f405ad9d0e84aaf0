// What is asked for finds one handler: with the values of its names put in again its pattern is the path, a word goes
// before a name, and whoever has to be asked first was asked. The input is a method, a blank and a path.

#include <array>

#include "fuzz/pieces.h"
#include "fuzz/targets.h"
#include "libs/http/router.h"
#include "libs/http/url.h"
#include "libs/values/assert.h"

namespace hw::fuzz {
namespace {

constexpr std::array patterns = {"/api/machines",
                                 "/api/machines/{machine}",
                                 "/api/machines/all",
                                 "/api/machines/{machine}/tasks/{task}",
                                 "/api/machines/all/tasks/{task}",
                                 "/api/machines/{machine}/tasks/all",
                                 "/{page}"};

bool is_forbidden(const http::Request& request) { return request.path.find("forbidden") != std::string::npos; }

std::string filled_in(std::string pattern, const http::Request& request) {
  std::size_t from = 0;
  for (const auto& [name, value] : request.path_values) {
    const std::size_t at = pattern.find('{' + name + '}', from);
    HW_ASSERT(at != std::string::npos && !value.empty(), "a value is that of a name, and is not empty");
    pattern.replace(at, name.size() + 2, value);
    from = at + value.size();
  }
  return pattern;
}

// Says in a header which pattern it was, and whether the guard was asked.
http::Router small_router() {
  http::Router router;
  for (const std::string pattern : patterns) {
    for (const std::string method : {"GET", "PUT"}) {
      if (method == "PUT" && pattern == "/{page}") continue;
      router.add(method, pattern, [pattern](http::Request request) {
        HW_ASSERT(request.headers.count("Asked") == 1, "the guard is asked once, before the handler");
        HW_ASSERT(filled_in(pattern, request) == request.path, "a pattern with its values is the path");
        http::Response response = http::Response::empty(204);
        response.headers.add("Pattern", pattern);
        return response;
      });
    }
  }
  router.guard([](const http::Route&, http::Request& request) -> std::optional<http::Response> {
    request.headers.add("Asked", "yes");
    return is_forbidden(request) ? std::optional(http::Response::empty(403)) : std::nullopt;
  });
  return router;
}

void expect_closest(const std::string& path, std::string_view pattern) {
  for (const std::string_view word : {"/api/machines", "/api/machines/all"}) {
    HW_ASSERT(path != word || pattern == word, "a word goes before a name");
  }
  HW_ASSERT(pattern != "/api/machines/{machine}/tasks/all" || path != "/api/machines/all/tasks/all",
            "the first word goes before a later one");
}

void expect_right(const http::Request& request, const http::Response& response) {
  if (const auto pattern = response.headers.find("Pattern")) {
    HW_ASSERT(!is_forbidden(request), "no handler answers what its guard refused");
    return expect_closest(request.path, *pattern);
  }
  if (request.method == "OPTIONS" || response.status == 405) {
    HW_ASSERT(response.status == 404 || response.headers.count("Allow") == 1, "it is said what may be done there");
    return;
  }
  HW_ASSERT(response.status == 404 || (response.status == 403 && is_forbidden(request)), "nothing fits");
}

}  // namespace

void routes(std::string_view input) {
  static const http::Router router = small_router();
  http::Request request;
  request.method = take_until(input, " ");
  const auto path = http::parse_path(input);
  if (!path) return;
  request.path = *path;
  expect_right(request, router.answer(request));
}

}  // namespace hw::fuzz
