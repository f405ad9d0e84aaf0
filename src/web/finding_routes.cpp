#include "src/web/answers.h"
#include "src/web/machine_limits.h"
#include "src/web/routes.h"

namespace hw::web {
namespace {

using http::Request;
using service::FindingsShown;

Result<service::FindingsView> findings(const ApiParts& parts, const Request& request) {
  service::FindingsQuery query;
  if (const auto machine = request.query_value("machine")) query.machine = *machine;
  const auto state = request.query_value("state").value_or("open");
  const auto shown = formats::parse_word<FindingsShown>(state);
  if (!shown) {
    return refuse(ErrorCode::bad_input, "state: \"{}\" is none of {}", state.substr(0, 60),
                  formats::print_words<FindingsShown>());
  }
  query.shown = *shown;
  HW_TAKE(view, show_findings(parts.shop, query));
  keep_reachable(request, view.findings, &service::FindingView::machine);
  return std::move(view);
}

// A route that tells something of a finding by an edit.
template <class Edit, class Use>
void add_edit(http::Router& router, const ApiParts& parts, std::string_view verb, Use use) {
  router.add("POST", fmt::format("/api/findings/{{finding}}/{}", verb), guarded([parts, use](const Request& request) {
               return answer_edit<Edit>(request, [&](const auto& edit) {
                 return use(parts.shop, request.path_value("finding"), edit, parts.clock());
               });
             }));
}

}  // namespace

void add_finding_routes(http::Router& router, const ApiParts& parts) {
  router.add("GET", "/api/findings",
             guarded([parts](const Request& request) { return answer(findings(parts, request)); }));
  router.add("GET", "/api/findings/{finding}", guarded([parts](const Request& request) {
               return answer(show_finding(parts.shop, request.path_value("finding")));
             }));
  router.add("POST", "/api/machines/{machine}/findings", guarded([parts](const Request& request) {
               return answer_edit<service::FindingEdit>(request, [&](const auto& edit) {
                 return make_finding(parts.shop, request.path_value("machine"), edit, parts.clock());
               });
             }));
  add_edit<service::FindingChange>(router, parts, "change", service::change_finding);
  add_edit<service::FindingSettle>(router, parts, "settle", service::settle_finding);
  add_edit<service::FindingReopen>(router, parts, "reopen", service::reopen_finding);
}

}  // namespace hw::web
