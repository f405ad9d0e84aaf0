#include "src/web/admission.h"

#include <algorithm>
#include <array>

#include "libs/http/problem.h"
#include "src/web/cookies.h"
#include "src/web/machine_limits.h"
#include "src/web/origin_check.h"

namespace hw::web {
namespace {

constexpr std::string_view watch_permission = "watch";
constexpr std::string_view bearer = "Bearer ";
// By these the plant's record changes.
constexpr std::array<std::string_view, 5> record_permissions{"enter", "work", "stock", "agree", "shape"};

http::Response not_signed_in() {
  auto refusal =
      http::problem({ErrorCode::not_signed_in, "nobody has signed in here, or not any more", Saying{"not-signed-in"}});
  refusal.headers.add("WWW-Authenticate", "Bearer");  // RFC 9110, section 15.5.2 asks for one; browsers pass it over
  return refusal;
}

http::Response not_allowed(const service::Caller& caller, std::string_view permission) {
  if (caller.needs_second_factor) {
    return http::problem({ErrorCode::not_allowed,
                          fmt::format("the plant demands a second factor of the role {}; {} sets it up first",
                                      access::word_of(caller.role), caller.name),
                          Saying{"second-factor-needed"}});
  }
  return http::problem({ErrorCode::not_allowed,
                        fmt::format("{} may not do this; the role {} has no permission \"{}\", or this token has not",
                                    caller.name, access::word_of(caller.role), permission),
                        Saying{"not-allowed"}});
}

bool would_change_record(const http::Request& request, std::string_view permission) {
  const bool changes = request.method != "GET" && request.method != "HEAD";
  return changes &&
         std::find(record_permissions.begin(), record_permissions.end(), permission) != record_permissions.end();
}

http::Response kept_at_edge() {
  return http::problem({ErrorCode::conflict,
                        "the record of this plant is kept by the server at the plant itself; what is entered there "
                        "comes here by itself",
                        Saying{"kept-at-edge"}});
}

}  // namespace

std::optional<service::DeviceView> device_of(const http::Request& request, service::Devices& devices, Instant now) {
  const std::string_view secret = cookie_of(request, device_cookie_name);
  return secret.empty() ? std::nullopt : devices.recognise(secret, now);
}

std::optional<service::Caller> caller_of(const http::Request& request, const Doors& doors, Instant now) {
  if (const auto authorization = request.headers.find("Authorization")) {
    if (!authorization->starts_with(bearer)) return std::nullopt;
    return service::recognise_token(doors.book, authorization->substr(bearer.size()), now);
  }
  const std::string_view secret = cookie_of(request, session_cookie_name);
  if (secret.empty()) return std::nullopt;
  auto caller = service::recognise_session(doors.book, secret, now);
  if (!caller || !caller->session->device) return caller;
  const auto device = device_of(request, doors.devices, now);
  return device && device->id == *caller->session->device ? std::move(caller) : std::nullopt;
}

std::optional<http::Response> check_admission(const AdmissionParts& parts, const http::Route& route,
                                              http::Request& request, Instant now) {
  const auto found = parts.table.permission_of.find(route);
  const std::string permission = found == parts.table.permission_of.end() ? "" : found->second;
  if (permission == access::open_permission) return std::nullopt;
  if (permission == watch_permission && is_this_computer(request)) return std::nullopt;
  const auto caller = caller_of(request, parts.doors, now);
  if (!caller) return not_signed_in();
  const bool is_self = permission == access::self_permission && !caller->is_program();
  if (!is_self && !caller->may(permission)) return not_allowed(*caller, permission);
  if (parts.shop.from_edge() && would_change_record(request, permission)) return kept_at_edge();
  if (!caller->is_program()) request.user = caller->name;
  request.limited_to = caller->machines;
  return request.limited_to ? check_machine(parts.shop, request) : std::nullopt;
}

}  // namespace hw::web
