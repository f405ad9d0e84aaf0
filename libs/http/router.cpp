#include "libs/http/router.h"

#include <algorithm>
#include <set>

#include <fmt/format.h>

#include "libs/http/problem.h"
#include "libs/values/assert.h"

namespace hw::http {
namespace {

std::vector<std::string_view> split(std::string_view path) {
  std::vector<std::string_view> segments;
  while (!path.empty()) {
    path.remove_prefix(1);  // the slash
    const auto slash = std::min(path.find('/'), path.size());
    segments.push_back(path.substr(0, slash));
    path.remove_prefix(slash);
  }
  return segments;
}

bool is_name(std::string_view segment) { return segment.size() > 2 && segment.front() == '{' && segment.back() == '}'; }

// The pattern's segments with every name made the same, so that "/a/{x}" and "/a/{y}" are one shape.
std::vector<std::string> shape_of(const std::vector<std::string>& segments) {
  std::vector<std::string> shape = segments;
  std::replace_if(
      shape.begin(), shape.end(), [](const std::string& s) { return is_name(s); }, "{}");
  return shape;
}

bool fits(const std::vector<std::string>& pattern, const std::vector<std::string_view>& path) {
  return std::equal(pattern.begin(), pattern.end(), path.begin(), path.end(),
                    [](const std::string& wanted, std::string_view segment) {
                      return is_name(wanted) ? !segment.empty() : wanted == segment;
                    });
}

// Of two patterns that fit the same path: whether a has a word where b, at the first difference, has a name.
bool is_closer(const std::vector<std::string>& a, const std::vector<std::string>& b) {
  const auto [first, second] = std::mismatch(a.begin(), a.end(), b.begin(),
                                             [](const auto& x, const auto& y) { return is_name(x) == is_name(y); });
  return first != a.end() && !is_name(*first);
}

std::vector<NamedValue> values_of(const std::vector<std::string>& pattern, const std::vector<std::string_view>& path) {
  std::vector<NamedValue> values;
  for (std::size_t i = 0; i < pattern.size(); ++i) {
    if (is_name(pattern[i])) values.push_back({pattern[i].substr(1, pattern[i].size() - 2), std::string(path[i])});
  }
  return values;
}

std::string allow_line(const std::set<std::string>& methods) { return fmt::format("{}", fmt::join(methods, ", ")); }

}  // namespace

void Router::add(std::string method, std::string pattern, Handler handler) {
  HW_ASSERT(!pattern.empty() && pattern.front() == '/', "a route's pattern begins with a slash");
  Entry entry{{std::move(method), std::move(pattern)}, {}, std::move(handler)};
  for (std::string_view segment : split(entry.route.pattern)) entry.segments.emplace_back(segment);
  for (const Entry& other : entries_) {
    HW_ASSERT(other.route.method != entry.route.method || shape_of(other.segments) != shape_of(entry.segments),
              "each route is added once");
  }
  entries_.push_back(std::move(entry));
}

std::vector<const Router::Entry*> Router::entries_for(const std::vector<std::string_view>& segments) const {
  std::vector<const Entry*> found;
  for (const Entry& entry : entries_) {
    if (!fits(entry.segments, segments)) continue;
    if (!found.empty() && is_closer(entry.segments, found.front()->segments)) found.clear();
    if (found.empty() || !is_closer(found.front()->segments, entry.segments)) found.push_back(&entry);
  }
  return found;
}

Response Router::answer(Request request) const {
  Found found = find(request);
  return found.answer ? *std::move(found.answer) : found.entry->handler(std::move(request));
}

std::optional<Response> Router::answer_before(Request request) const { return find(request).answer; }

Router::Found Router::find(Request& request) const {
  const std::string path = request.path;
  const std::vector<std::string_view> segments = split(path);
  const auto entries = entries_for(segments);
  if (entries.empty()) {
    return {nullptr, otherwise_ ? otherwise_(request) : problem(404, fmt::format("there is nothing at {}", path))};
  }
  const std::string wanted = request.method == "HEAD" ? "GET" : request.method;
  std::set<std::string> allowed = {"OPTIONS"};
  for (const Entry* entry : entries) {
    if (entry->route.method == wanted || entry->route.method == request.method) {
      request.path_values = values_of(entry->segments, segments);
      if (guard_) {
        if (auto refusal = guard_(entry->route, request)) return {nullptr, std::move(refusal)};
      }
      return {entry};
    }
    allowed.insert(entry->route.method);
    if (entry->route.method == "GET") allowed.insert("HEAD");
  }
  Response response = request.method == "OPTIONS"
                          ? Response::empty(204)
                          : problem(405, fmt::format("{} does not take {}", path, request.method));
  response.headers.add("Allow", allow_line(allowed));
  return {nullptr, std::move(response)};
}

std::vector<Route> Router::routes() const {
  std::vector<Route> all;
  for (const Entry& entry : entries_) all.push_back(entry.route);
  std::sort(all.begin(), all.end(), [](const Route& a, const Route& b) {
    return std::tie(a.pattern, a.method) < std::tie(b.pattern, b.method);
  });
  return all;
}

}  // namespace hw::http
