#include "src/web/cookies.h"

#include <fmt/format.h>

namespace hw::web {
namespace {

constexpr int device_days = 400;  // browsers keep none for longer (RFC 6265bis, section 5.5)

// The value of the cookie in "a=1; name=x; b=2"; empty where there is none.
std::string_view value_in(std::string_view cookies, std::string_view name) {
  while (!cookies.empty()) {
    const auto end = cookies.find(';');
    std::string_view one = cookies.substr(0, end);
    while (one.starts_with(' ')) one.remove_prefix(1);
    if (one.starts_with(name) && one.substr(name.size()).starts_with('=')) return one.substr(name.size() + 1);
    if (end == std::string_view::npos) break;
    cookies.remove_prefix(end + 1);
  }
  return {};
}

std::string cookie(std::string_view name, std::string_view secret, std::string_view age, service::Line line) {
  return fmt::format("{}={}; Path=/{}; HttpOnly; SameSite=Strict{}", name, secret, age,
                     line == service::Line::encrypted ? "; Secure" : "");
}

}  // namespace

std::string_view cookie_of(const http::Request& request, std::string_view name) {
  return value_in(request.headers.find("Cookie").value_or(""), name);
}

std::string device_cookie(std::string_view secret, service::Line line) {
  return cookie(device_cookie_name, secret, fmt::format("; Max-Age={}", device_days * 24 * 3600), line);
}

std::string session_cookie(std::string_view secret, service::Line line) {
  return cookie(session_cookie_name, secret, secret.empty() ? "; Max-Age=0" : "", line);
}

service::Line line_of(const http::Request& request) {
  return request.is_tls ? service::Line::encrypted : service::Line::plain;
}

}  // namespace hw::web
