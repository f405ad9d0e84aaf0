#include "src/web/answers.h"
#include "src/web/routes.h"

namespace hw::web {

void add_proposal_routes(http::Router& router, const ApiParts& parts) {
  router.add("POST", "/api/stops/estimate", guarded([parts](const http::Request& request) {
               return answer_edit<service::StopTryView>(request, [&](const auto& wanted) {
                 return try_stop(parts.shop, parts.forecasts, wanted, parts.clock());
               });
             }));
  router.add("POST", "/api/proposals", guarded([parts](const http::Request& request) {
               return answer_edit<service::ProposalEdit>(
                   request, [&](const auto& edit) { return parts.proposals.begin(edit, parts.clock()); });
             }));
  router.add("GET", "/api/proposals/latest",
             [parts](const http::Request&) { return answer(parts.proposals.latest()); });
  router.add("POST", "/api/proposals/{proposal}/cancel", guarded([parts](const http::Request& request) {
               return answer_edit<service::Signature>(request, [&](const auto& signature) {
                 return parts.proposals.cancel(request.path_value("proposal"), signature);
               });
             }));
  router.add("POST", "/api/proposals/{proposal}/accept", guarded([parts](const http::Request& request) {
               return answer_edit<service::AcceptEdit>(request, [&](const auto& edit) {
                 return parts.proposals.accept(request.path_value("proposal"), edit, parts.clock());
               });
             }));
  router.add("POST", "/api/proposals/{proposal}/undo", guarded([parts](const http::Request& request) {
               return answer_edit<service::Signature>(request, [&](const auto& signature) {
                 return parts.proposals.undo(request.path_value("proposal"), signature, parts.clock());
               });
             }));
}

}  // namespace hw::web
