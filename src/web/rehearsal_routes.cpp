#include <memory>

#include "src/service/rehearsals.h"
#include "src/web/answers.h"
#include "src/web/routes.h"

namespace hw::web {

void add_rehearsal_routes(http::Router& router, const ApiParts& parts) {
  const auto rehearsals = std::make_shared<service::Rehearsals>(parts.shop, parts.forecasts, parts.studies);
  router.add("POST", "/api/rehearsals", guarded([parts, rehearsals](const http::Request& request) {
               return answer_edit<service::RehearsalEdit>(
                   request, [&](const auto& edit) { return rehearsals->play(edit, parts.clock()); });
             }));
}

}  // namespace hw::web
