#include "libs/formats/qr.h"
#include "libs/http/url.h"
#include "libs/passwords/one_time_code.h"
#include "src/service/own_access.h"
#include "src/web/access_routes.h"
#include "src/web/admission.h"
#include "src/web/answers.h"
#include "src/web/join_views.h"
#include "src/web/me_view.h"

namespace hw::web {
namespace {

using http::Request;
using http::Response;

struct SecondFactorView {
  std::string secret;
  std::string address;
  QrView qr;
};
BOOST_DESCRIBE_STRUCT(SecondFactorView, (), (secret, address, qr))

Result<SecondFactorView> second_factor_view(const std::string& name, const std::string& key) {
  SecondFactorView view;
  view.secret = passwords::print_base32(key);
  view.address =
      fmt::format("otpauth://totp/Hourwright:{}?secret={}&issuer=Hourwright", http::percent_encode(name), view.secret);
  HW_TAKE(qr, formats::encode_qr(view.address, formats::QrLevel::medium));
  view.qr = view_of(qr);
  return view;
}

std::map<std::string, std::string> titles_of(const service::Devices& devices) {
  std::map<std::string, std::string> titles;
  for (const auto& device : devices.show().devices) titles[device.id] = device.title;
  return titles;
}

service::SessionsView sessions(const AccessParts& parts, const service::Session& present) {
  return service::show_sessions(parts.book, present, titles_of(parts.devices), parts.clock());
}

Doors doors(const AccessParts& parts) { return {parts.book, parts.devices}; }

// The guard let in nobody without a session.
service::Caller person_of(const AccessParts& parts, const Request& request) {
  return *caller_of(request, doors(parts), parts.clock());
}

// A route that changes something of the person's own by an edit; `told` is what it answers then, of who it is since.
template <class Edit, class Use, class Told>
void add_own(http::Router& router, const AccessParts& parts, const char* pattern, Use use, Told told) {
  router.add("POST", pattern, guarded([parts, use, told](const Request& request) {
               return not_kept(answer_edit<Edit>(
                   request, [&](const auto& edit) -> Result<decltype(told(parts, request, person_of(parts, request)))> {
                     const service::Caller caller = person_of(parts, request);
                     HW_TRY(use(parts, *caller.session, edit, request));
                     parts.events.end_streams();  // sessions may have ended, or may do less
                     return told(parts, request, caller_of(request, doors(parts), parts.clock()).value_or(caller));
                   }));
             }));
}

MeView tell_me(const AccessParts& parts, const Request& request, const service::Caller& caller) {
  return me_view(parts, request, caller);
}

service::SessionsView tell_sessions(const AccessParts& parts, const Request&, const service::Caller& caller) {
  return sessions(parts, *caller.session);
}

void add_sessions(http::Router& router, const AccessParts& parts) {
  router.add("GET", "/api/me/sessions", [parts](const Request& request) {
    return not_kept(answer(sessions(parts, *person_of(parts, request).session)));
  });
  add_own<service::Nothing>(
      router, parts, "/api/me/sessions/{session}/end",
      [](const AccessParts& all, const service::Session& present, const auto&, const Request& request) {
        return service::end_session(all.book, present, request.path_value("session"), all.clock());
      },
      tell_sessions);
  add_own<service::Nothing>(
      router, parts, "/api/me/sessions/end-others",
      [](const AccessParts& all, const service::Session& present, const auto&, const Request&) {
        return service::end_other_sessions(all.book, present, all.clock());
      },
      tell_sessions);
}

void add_second_factor(http::Router& router, const AccessParts& parts) {
  router.add(
      "POST", "/api/me/second-factor/begin", guarded([parts](const Request& request) {
        return not_kept(answer_edit<service::NowEdit>(request, [&](const auto& edit) -> Result<SecondFactorView> {
          const service::Caller caller = person_of(parts, request);
          HW_TAKE(key, service::begin_second_factor(parts.book, *caller.session, edit, parts.clock()));
          return second_factor_view(caller.name, key);
        }));
      }));
  add_own<service::CodeEdit>(
      router, parts, "/api/me/second-factor",
      [](const AccessParts& all, const service::Session& present, const auto& edit, const Request&) {
        return service::set_second_factor(all.book, present, edit, all.clock());
      },
      tell_me);
  add_own<service::NowEdit>(
      router, parts, "/api/me/second-factor/end",
      [](const AccessParts& all, const service::Session& present, const auto& edit, const Request&) {
        return service::end_second_factor(all.book, present, edit, all.clock());
      },
      tell_me);
}

}  // namespace

void add_own_access_routes(http::Router& router, const AccessParts& parts) {
  add_sessions(router, parts);
  add_own<service::PasswordEdit>(
      router, parts, "/api/me/password",
      [](const AccessParts& all, const service::Session& present, const auto& edit,
         const Request& request) -> Result<void> {
        HW_TRY(check_line(request));
        return service::change_password(all.book, present, edit, words_near(all.shop), all.clock());
      },
      tell_me);
  add_own<service::PinEdit>(
      router, parts, "/api/me/pin",
      [](const AccessParts& all, const service::Session& present, const auto& edit, const Request&) {
        return service::change_pin(all.book, present, edit, all.clock());
      },
      tell_me);
  add_second_factor(router, parts);
}

}  // namespace hw::web
