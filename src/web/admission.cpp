#include "src/web/admission.h"

#include <algorithm>
#include <array>

#include "libs/http/problem.h"
#include "src/web/origin_check.h"

namespace hw::web {
namespace {

constexpr std::string_view cookie_name = "hourwright_device";
constexpr int cookie_days = 400;  // browsers keep none for longer (RFC 6265bis, section 5.5)

struct Open {
  std::string_view method;
  std::string_view path;
};
// Besides the app's files.
constexpr std::array open_to_everybody{Open{"GET", "/healthz"}, Open{"GET", "/authority.crt"}, Open{"GET", "/api/join"},
                                       Open{"POST", "/api/devices"}};

// What the router answers; everything else is a file of the app, or a page of it.
bool is_of_the_shop(std::string_view path) {
  return path == "/api" || path.starts_with("/api/") || path == "/readyz" || path == "/metrics" || path == "/healthz" ||
         path == "/authority.crt";
}

bool is_open(const http::Request& request) {
  if (!is_of_the_shop(request.path)) return true;
  const std::string_view method = request.method == "HEAD" ? "GET" : std::string_view{request.method};
  return std::any_of(open_to_everybody.begin(), open_to_everybody.end(),
                     [&](const Open& one) { return one.method == method && one.path == request.path; });
}

// The value of the cookie in "a=1; hourwright_device=x; b=2"; empty where there is none.
std::string_view secret_in(std::string_view cookies) {
  while (!cookies.empty()) {
    const auto end = cookies.find(';');
    std::string_view one = cookies.substr(0, end);
    while (one.starts_with(' ')) one.remove_prefix(1);
    if (one.starts_with(cookie_name) && one.substr(cookie_name.size()).starts_with('=')) {
      return one.substr(cookie_name.size() + 1);
    }
    if (end == std::string_view::npos) break;
    cookies.remove_prefix(end + 1);
  }
  return {};
}

}  // namespace

std::optional<service::DeviceView> device_of(const http::Request& request, service::Devices& devices, Instant now) {
  const std::string_view secret = secret_of(request);
  return secret.empty() ? std::nullopt : devices.recognise(secret, now);
}

std::string_view secret_of(const http::Request& request) {
  return secret_in(request.headers.find("Cookie").value_or(""));
}

std::string device_cookie(std::string_view secret, service::Line line) {
  return fmt::format("{}={}; Path=/; Max-Age={}; HttpOnly; SameSite=Strict{}", cookie_name, secret,
                     cookie_days * 24 * 3600, line == service::Line::encrypted ? "; Secure" : "");
}

std::optional<http::Response> check_admission(const http::Request& request, service::Devices& devices, Instant now) {
  if (is_open(request) || is_this_computer(request) || device_of(request, devices, now)) return std::nullopt;
  auto refusal = http::problem({ErrorCode::not_joined,
                                "this device has not joined, or may no longer; at the desk open Join this phone, and "
                                "read the code there with this device's camera",
                                Saying{"not-joined"}});
  refusal.headers.add("WWW-Authenticate", "JoinCode");  // RFC 9110, section 15.5.2 asks for one; browsers pass it over
  return refusal;
}

}  // namespace hw::web
