#include "src/web/answers.h"
#include "src/web/routes.h"

namespace hw::web {

using http::Request;

void add_plan_routes(http::Router& router, const ApiParts& parts) {
  router.add("POST", "/api/machines/{machine}/points", guarded([parts](const Request& request) {
               return answer_edit<service::PointsEdit>(request, [&](const auto& edit) {
                 return move_points(parts.shop, request.path_value("machine"), edit, parts.clock());
               });
             }));
  router.add("POST", "/api/machines/{machine}/walk", guarded([parts](const Request& request) {
               return answer_edit<service::WalkOrderEdit>(request, [&](const auto& edit) {
                 return change_walk(parts.shop, request.path_value("machine"), edit, parts.clock());
               });
             }));
}

}  // namespace hw::web
