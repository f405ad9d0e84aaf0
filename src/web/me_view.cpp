#include "src/web/me_view.h"

#include "src/service/sign_in.h"
#include "src/web/admission.h"
#include "src/web/origin_check.h"

namespace hw::web {
namespace {

CallerWay way_of(const service::Caller& caller) {
  if (caller.is_program()) return CallerWay::token;
  switch (caller.session->way) {
    case service::SignInWay::pin:
      return CallerWay::pin;
    case service::SignInWay::link:
      return CallerWay::link;
    case service::SignInWay::password:
      break;
  }
  return CallerWay::password;
}

void add_account(service::AccessBook& book, const service::Caller& caller, Instant now, MeView& view) {
  const std::lock_guard lock(book.mutex);
  const service::Account* const account = book.account(caller.name, now);
  if (!account || caller.is_program()) return;
  view.has_password = account->password_hash.has_value();
  view.has_pin = account->pin_hash.has_value();
  view.has_second_factor = account->factor_key.has_value();
}

}  // namespace

bool is_open_line(const http::Request& request) { return !request.is_tls && !is_this_computer(request); }

Result<void> check_line(const http::Request& request) {
  if (!is_open_line(request)) return {};
  return refuse(ErrorCode::not_allowed, Saying{"open-line"},
                "passwords are taken over https only (serve --listen-tls), or on the server's own computer: this line "
                "can be read on the way");
}

std::vector<std::string> words_near(const service::OpenShop& shop) { return {shop.record().plant, "hourwright"}; }

http::Response not_kept(http::Response response) {
  response.headers.set("Cache-Control", "no-store");
  return response;
}

MeView me_view(const AccessParts& parts, const http::Request& request, const std::optional<service::Caller>& caller) {
  const Instant now = parts.clock();
  MeView view;
  view.can_sign_in = service::has_accounts(parts.book, now);
  view.is_open_line = is_open_line(request);
  if (device_of(request, parts.devices, now)) view.pin_people = service::people_with_pin(parts.book, now);
  if (!caller) return view;
  view.name = caller->name;
  view.role = caller->role;
  view.permissions = caller->permissions;
  view.needs_second_factor = caller->needs_second_factor;
  if (caller->machines) view.machines = *caller->machines;
  if (caller->until) view.until = *caller->until;
  view.way = way_of(*caller);
  if (caller->session) view.session = caller->session->id;
  add_account(parts.book, *caller, now, view);
  return view;
}

}  // namespace hw::web
