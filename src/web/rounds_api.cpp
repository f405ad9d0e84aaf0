#include "src/web/rounds_api.h"

#include "src/web/answers.h"
#include "src/web/machine_limits.h"

namespace hw::web {
namespace {

using http::Request;

http::Response rounds(const ApiParts& parts, const Request& request) {
  const auto machine = request.query_value("machine");
  const auto key = machine ? std::optional{std::string{*machine}} : std::nullopt;
  auto rounds = show_rounds(parts.shop, key, parts.clock());
  if (rounds) keep_reachable(request, rounds->machines, &service::MachineRoundsView::machine);
  return answer(rounds);
}

}  // namespace

void add_rounds(http::Router& router, const ApiParts& parts) {
  router.add("GET", "/api/rounds", guarded([parts](const Request& request) { return rounds(parts, request); }));
  router.add("POST", "/api/machines/{machine}/rounds/{rhythm}/walks", guarded([parts](const Request& request) {
               return answer_edit<service::WalkEdit>(request, [&](const auto& edit) {
                 return begin_walk(parts.shop, request.path_value("machine"), request.path_value("rhythm"), edit,
                                   parts.clock());
               });
             }));
  router.add("POST", "/api/machines/{machine}/rounds/{rhythm}/answers", guarded([parts](const Request& request) {
               return answer_edit<service::AnswersEdit>(request, [&](const auto& edit) {
                 return answer_checks(parts.shop, request.path_value("machine"), request.path_value("rhythm"), edit,
                                      parts.clock());
               });
             }));
}

}  // namespace hw::web
