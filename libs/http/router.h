#pragma once
// Finds the handler for a method and a path. Patterns are whole paths whose segments are words or names in braces:
// "/api/machines/{machine}/tasks/{task}". A name stands for one segment that is not empty. Where a word and a name both
// fit, the word wins.

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "libs/http/message.h"

namespace hw::http {

struct Route {
  std::string method;
  std::string pattern;
  auto operator<=>(const Route&) const = default;
};

class Router {
 public:
  // Adds a route. The same method and pattern twice (names aside) is our own mistake, as is a pattern without '/' in
  // front.
  void add(std::string method, std::string pattern, Handler handler);
  // Answers what no pattern fits, for example the app's files. Without it: 404.
  void otherwise(Handler handler) { otherwise_ = std::move(handler); }

  // Asked before each handler, with the route that was found and the request's path values; a response of its own ends
  // it there.
  using Guard = std::function<std::optional<Response>(const Route& route, Request& request)>;
  void guard(Guard guard) { guard_ = std::move(guard); }

  // Answers HEAD by the GET handler (the server leaves the body out), OPTIONS by 204 with Allow, a method that the path
  // does not have by 405 with Allow, an unknown path by otherwise() or 404.
  Response answer(Request request) const;
  // What answer() would say without asking a handler; nothing where it asks that of a route.
  std::optional<Response> answer_before(Request request) const;

  // All routes, sorted by pattern, then method.
  std::vector<Route> routes() const;

 private:
  struct Entry {
    Route route;
    std::vector<std::string> segments;
    Handler handler;
  };
  struct Found {
    const Entry* entry = nullptr;         // whose handler is to be asked
    std::optional<Response> answer = {};  // else
  };
  // Fills in the request's path values, and what the guard finds out.
  Found find(Request& request) const;
  std::vector<const Entry*> entries_for(const std::vector<std::string_view>& segments) const;

  std::vector<Entry> entries_;
  Handler otherwise_;
  Guard guard_;
};

}  // namespace hw::http
