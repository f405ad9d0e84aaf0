#include "src/web/join_routes.h"

#include "src/web/admission.h"
#include "src/web/answers.h"
#include "src/web/cookies.h"
#include "src/web/join_views.h"
#include "src/web/me_view.h"
#include "src/web/origin_check.h"

namespace hw::web {
namespace {

using http::Request;
using http::Response;

Response authority(const JoinParts& parts) {
  const auto served = parts.reach.served();
  if (served && served->authority) return Response::of(200, "application/x-x509-ca-cert", served->authority_der);
  return http::problem({ErrorCode::not_found,
                        "there is no local authority here: this server has no HTTPS, or a certificate from elsewhere"});
}

Response join(const JoinParts& parts, const Request& request) {
  JoinView view{request.is_tls, is_this_computer(request), {}, authority_view(parts.reach), parts.reach.addresses()};
  const auto device = device_of(request, parts.devices, parts.clock());
  if (!device) return not_kept(answer(view));
  view.device = {*device};
  Response response = not_kept(answer(view));
  const auto line = device->encrypted ? service::Line::encrypted : service::Line::plain;
  response.headers.add("Set-Cookie",
                       device_cookie(cookie_of(request, device_cookie_name), line));  // its 400 days begin anew
  return response;
}

Result<JoinCodeView> offer(const JoinParts& parts, const service::JoinCodeEdit& edit) {
  if (parts.reach.addresses().empty()) {
    return refuse(ErrorCode::conflict, Saying{"only-here"},
                  "only this computer can reach the server, so no other device can join; serve --listen and "
                  "--listen-tls with an address of the shop's network open it");
  }
  HW_TAKE(code, parts.devices.offer_code(edit, parts.clock()));
  return join_code_view(code, parts.reach);
}

Response enrol(const JoinParts& parts, const Request& request) {
  const auto edit = formats::parse_json<service::DeviceEdit>(request.body);
  if (!edit) return http::problem(edit.error());
  const auto enrolled = parts.devices.enrol(*edit, line_of(request), parts.clock());
  if (!enrolled) return http::problem(enrolled.error());
  Response response = not_kept(answer(enrolled->device));
  response.headers.add("Set-Cookie", device_cookie(enrolled->secret, line_of(request)));
  return response;
}

Result<service::DeviceView> end(const JoinParts& parts, const Request& request, const service::Signature& signature) {
  HW_TAKE(device, parts.devices.end(request.path_value("device"), signature, parts.clock()));
  parts.events.end_streams();
  return std::move(device);
}

}  // namespace

void add_join(http::Router& router, const JoinParts& parts) {
  router.add("GET", "/authority.crt", [parts](const Request&) { return authority(parts); });
  router.add("GET", "/api/join", [parts](const Request& request) { return join(parts, request); });
  router.add("POST", "/api/join-codes", guarded([parts](const Request& request) {
               return not_kept(
                   answer_edit<service::JoinCodeEdit>(request, [&](const auto& edit) { return offer(parts, edit); }));
             }));
  router.add("GET", "/api/devices", [parts](const Request&) { return answer(parts.devices.show()); });
  router.add("POST", "/api/devices", guarded([parts](const Request& request) { return enrol(parts, request); }));
  router.add("POST", "/api/devices/{device}/end", guarded([parts](const Request& request) {
               return answer_edit<service::Signature>(
                   request, [&](const auto& signature) { return end(parts, request, signature); });
             }));
}

}  // namespace hw::web
