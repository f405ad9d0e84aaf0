#include "src/service/sign_in.h"
#include "src/web/access_routes.h"
#include "src/web/admission.h"
#include "src/web/answers.h"
#include "src/web/cookies.h"
#include "src/web/me_view.h"

namespace hw::web {
namespace {

using http::Request;
using http::Response;

service::SignInPlace place_of(const AccessParts& parts, const Request& request) {
  service::SignInPlace place{request.remote_address, {}};
  if (const auto device = device_of(request, parts.devices, parts.clock())) place.device = device->id;
  return place;
}

// The seconds to wait are told in the header too (RFC 9110, section 10.2.3).
Response refused(const Error& error) {
  Response response = http::problem(error);
  if (error.saying && error.saying->numbers.contains("seconds")) {
    response.headers.add("Retry-After", fmt::format("{:.0f}", error.saying->numbers.at("seconds")));
  }
  return not_kept(std::move(response));
}

Response signed_in(const AccessParts& parts, const Request& request, const Result<service::SignedIn>& signed_in) {
  if (!signed_in) return refused(signed_in.error());
  Response response = not_kept(answer(me_view(parts, request, signed_in->caller)));
  response.headers.add("Set-Cookie", session_cookie(signed_in->secret, line_of(request)));
  return response;
}

Result<service::SignedIn> by_link(const AccessParts& parts, const Request& request, const service::LinkEdit& edit) {
  if (edit.password) HW_TRY(check_line(request));
  return service::sign_in_by_link(parts.book, edit, place_of(parts, request), words_near(parts.shop), parts.clock());
}

Result<service::SignedIn> by_password(const AccessParts& parts, const Request& request,
                                      const service::SignInEdit& edit) {
  HW_TRY(check_line(request));
  return service::sign_in(parts.book, edit, place_of(parts, request), parts.clock());
}

// A route that signs in by an edit.
template <class Edit, class Use>
void add_way(http::Router& router, const AccessParts& parts, const char* pattern, Use use) {
  router.add("POST", pattern, guarded([parts, use](const Request& request) {
               const auto edit = formats::parse_json<Edit>(request.body);
               return edit ? signed_in(parts, request, use(parts, request, *edit)) : http::problem(edit.error());
             }));
}

Response sign_out(const AccessParts& parts, const Request& request) {
  const auto caller = caller_of(request, {parts.book, parts.devices}, parts.clock());
  if (const auto out = service::sign_out(parts.book, *caller->session, parts.clock()); !out) {
    return http::problem(out.error());
  }
  parts.events.end_streams();
  Response response = not_kept(answer(me_view(parts, request, std::nullopt)));
  response.headers.add("Set-Cookie", session_cookie("", line_of(request)));
  return response;
}

}  // namespace

void add_sign_in_routes(http::Router& router, const AccessParts& parts) {
  router.add("GET", "/api/me", guarded([parts](const Request& request) {
               return not_kept(
                   answer(me_view(parts, request, caller_of(request, {parts.book, parts.devices}, parts.clock()))));
             }));
  add_way<service::SignInEdit>(router, parts, "/api/sign-in", by_password);
  add_way<service::PinSignInEdit>(router, parts, "/api/sign-in/pin",
                                  [](const AccessParts& all, const Request& request, const auto& edit) {
                                    return service::sign_in_by_pin(all.book, edit, place_of(all, request), all.clock());
                                  });
  add_way<service::LinkEdit>(router, parts, "/api/sign-in/link", by_link);
  router.add("POST", "/api/sign-in/link/look", guarded([parts](const Request& request) {
               return not_kept(answer_edit<service::LinkSecret>(
                   request, [&](const auto& edit) { return service::look_at_link(parts.book, edit, parts.clock()); }));
             }));
  router.add("POST", "/api/sign-out", guarded([parts](const Request& request) { return sign_out(parts, request); }));
}

}  // namespace hw::web
