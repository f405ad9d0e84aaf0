#include "libs/http/message.h"

#include <algorithm>

#include "libs/values/assert.h"

namespace hw::http {
namespace {

const NamedValue* find_named(const std::vector<NamedValue>& values, std::string_view name) {
  const auto found = std::find_if(values.begin(), values.end(), [&](const NamedValue& v) { return v.name == name; });
  return found == values.end() ? nullptr : &*found;
}

struct Phrase {
  int status;
  std::string_view text;
};

// RFC 9110 section 15 and RFC 6585, as far as this library or its callers answer with them.
constexpr Phrase phrases[] = {
    {100, "Continue"},
    {200, "OK"},
    {201, "Created"},
    {202, "Accepted"},
    {204, "No Content"},
    {301, "Moved Permanently"},
    {302, "Found"},
    {303, "See Other"},
    {304, "Not Modified"},
    {307, "Temporary Redirect"},
    {308, "Permanent Redirect"},
    {400, "Bad Request"},
    {401, "Unauthorized"},
    {403, "Forbidden"},
    {404, "Not Found"},
    {405, "Method Not Allowed"},
    {406, "Not Acceptable"},
    {408, "Request Timeout"},
    {409, "Conflict"},
    {410, "Gone"},
    {412, "Precondition Failed"},
    {413, "Content Too Large"},
    {414, "URI Too Long"},
    {415, "Unsupported Media Type"},
    {417, "Expectation Failed"},
    {421, "Misdirected Request"},
    {422, "Unprocessable Content"},
    {428, "Precondition Required"},
    {429, "Too Many Requests"},
    {431, "Request Header Fields Too Large"},
    {500, "Internal Server Error"},
    {501, "Not Implemented"},
    {502, "Bad Gateway"},
    {503, "Service Unavailable"},
    {504, "Gateway Timeout"},
    {505, "HTTP Version Not Supported"},
    {507, "Insufficient Storage"},
};

}  // namespace

std::optional<std::string_view> Request::query_value(std::string_view name) const {
  const NamedValue* found = find_named(query, name);
  if (found == nullptr) return std::nullopt;
  return found->value;
}

std::string_view Request::path_value(std::string_view name) const {
  const NamedValue* found = find_named(path_values, name);
  HW_ASSERT(found != nullptr, "the route's pattern has this name");
  return found->value;
}

Response Response::empty(int status) { return {status, {}, std::string()}; }

Response Response::of(int status, std::string content_type, std::string body) {
  return {status, {{"Content-Type", std::move(content_type)}}, std::move(body)};
}

Response Response::file(std::string content_type, std::filesystem::path path) {
  return {200, {{"Content-Type", std::move(content_type)}}, FileBody{std::move(path)}};
}

Response Response::events(std::shared_ptr<Subscription> subscription) {
  return {
      200, {{"Content-Type", "text/event-stream"}, {"Cache-Control", "no-store"}}, EventBody{std::move(subscription)}};
}

std::string_view Response::text() const {
  if (const auto* own = std::get_if<std::string>(&body)) return *own;
  if (const auto* shared = std::get_if<SharedBytes>(&body)) return **shared;
  return {};
}

std::string_view phrase_of(int status) {
  const auto* const found =
      std::find_if(std::begin(phrases), std::end(phrases), [&](const Phrase& p) { return p.status == status; });
  return found == std::end(phrases) ? "Status" : found->text;
}

}  // namespace hw::http
