#include "libs/formats/qr.h"
#include "src/service/accounts.h"
#include "src/service/tokens.h"
#include "src/web/access_routes.h"
#include "src/web/answers.h"
#include "src/web/join_views.h"
#include "src/web/me_view.h"

namespace hw::web {
namespace {

using http::Request;
using http::Response;

struct NewLinkView {
  std::string name;
  std::string link;
  Instant valid_until;
  QrView qr;
};
BOOST_DESCRIBE_STRUCT(NewLinkView, (), (name, link, valid_until, qr))

struct NewTokenView {
  service::TokenView token;
  std::string secret;
};
BOOST_DESCRIBE_STRUCT(NewTokenView, (), (token, secret))

service::MachineKeys machine_keys(const service::OpenShop& shop) {
  const auto looking = shop.look();
  service::MachineKeys keys;
  for (const auto& machine : shop.machines()) keys.push_back(machine->record.machine.key);
  return keys;
}

Result<NewLinkView> link_view(const AccessParts& parts, const Request& request, const service::NewLink& made) {
  const std::string path = "/enter#" + made.secret;
  const auto addresses = parts.reach.addresses();
  const std::string base = addresses.empty() ? fmt::format("{}://{}", request.is_tls ? "https" : "http",
                                                           request.headers.find("Host").value_or(""))
                                             : addresses.front();
  HW_TAKE(qr, formats::encode_qr(base + path, formats::QrLevel::medium));
  return NewLinkView{made.link.name, base + path, made.link.valid_until, view_of(qr)};
}

// A route of the lead: `use` gets the edit and who asks.
template <class Edit, class Use>
void add_lead(http::Router& router, const AccessParts& parts, const char* pattern, Use use) {
  router.add("POST", pattern, guarded([parts, use](const Request& request) {
               return not_kept(answer_edit<Edit>(request, [&](const auto& edit) { return use(parts, request, edit); }));
             }));
}

// What ends sessions, or lets them do less: nothing more is told to them.
Result<service::AccountsView> ended(const AccessParts& parts, const Result<void>& done) {
  if (!done) return refuse(done.error());
  parts.events.end_streams();
  return service::show_accounts(parts.book, parts.clock());
}

void add_accounts(http::Router& router, const AccessParts& parts) {
  router.add("GET", "/api/accounts",
             [parts](const Request&) { return not_kept(answer(service::show_accounts(parts.book, parts.clock()))); });
  add_lead<service::AccountEdit>(
      router, parts, "/api/accounts",
      [](const AccessParts& all, const Request& request, const auto& edit) -> Result<NewLinkView> {
        HW_TAKE(made, service::make_account(all.book, edit, machine_keys(all.shop), request.user, all.clock()));
        return link_view(all, request, made);
      });
  add_lead<service::AccountEdit>(
      router, parts, "/api/accounts/change", [](const AccessParts& all, const Request& request, const auto& edit) {
        return ended(all, service::change_account(all.book, edit, machine_keys(all.shop), request.user, all.clock()));
      });
  add_lead<service::NameEdit>(router, parts, "/api/accounts/end",
                              [](const AccessParts& all, const Request& request, const auto& edit) {
                                return ended(all, service::end_account(all.book, edit, request.user, all.clock()));
                              });
  add_lead<service::NameEdit>(router, parts, "/api/accounts/end-sessions",
                              [](const AccessParts& all, const Request& request, const auto& edit) {
                                return ended(all, service::end_sessions_of(all.book, edit, request.user, all.clock()));
                              });
  add_lead<service::SecondFactorRule>(
      router, parts, "/api/accounts/second-factor",
      [](const AccessParts& all, const Request& request, const auto& edit) {
        return ended(all, service::rule_second_factor(all.book, edit, request.user, all.clock()));
      });
  add_lead<service::NameEdit>(
      router, parts, "/api/accounts/link",
      [](const AccessParts& all, const Request& request, const auto& edit) -> Result<NewLinkView> {
        HW_TAKE(made, service::make_link(all.book, edit, request.user, all.clock()));
        return link_view(all, request, made);
      });
}

void add_tokens(http::Router& router, const AccessParts& parts) {
  router.add("GET", "/api/tokens",
             [parts](const Request&) { return not_kept(answer(service::show_tokens(parts.book))); });
  add_lead<service::TokenEdit>(
      router, parts, "/api/tokens",
      [](const AccessParts& all, const Request& request, const auto& edit) -> Result<NewTokenView> {
        HW_TAKE(made, service::make_token(all.book, edit, machine_keys(all.shop), request.user, all.clock()));
        return NewTokenView{made.token, made.secret};
      });
  router.add("POST", "/api/tokens/{token}/end", guarded([parts](const Request& request) {
               return answer_edit<service::Nothing>(request, [&](const auto&) -> Result<service::TokensView> {
                 HW_TRY(service::end_token(parts.book, request.path_value("token"), request.user, parts.clock()));
                 parts.events.end_streams();
                 return service::show_tokens(parts.book);
               });
             }));
}

}  // namespace

void add_account_routes(http::Router& router, const AccessParts& parts) {
  add_accounts(router, parts);
  add_tokens(router, parts);
  router.add("GET", "/api/access-notes",
             guarded([parts](const Request&) { return not_kept(answer(service::show_access_notes(parts.book))); }));
}

}  // namespace hw::web
