#include "src/service/lives.h"
#include "src/web/answers.h"
#include "src/web/routes.h"

namespace hw::web {
namespace {

using http::Request;

service::PartName part_of(const Request& request) {
  return {std::string{request.path_value("kind")}, std::string{request.path_value("task")}};
}

Result<service::PartStudyView> part(const ApiParts& parts, const Request& request) {
  HW_TAKE(planned, query_number<double>(request, "planned"));
  HW_TAKE(failed, query_number<double>(request, "failed"));
  HW_TAKE(interval, query_number<double>(request, "interval"));
  return show_part(parts.shop, parts.studies, parts.forecasts, part_of(request), {planned, failed, interval},
                   parts.clock());
}

}  // namespace

void add_life_routes(http::Router& router, const ApiParts& parts) {
  router.add("GET", "/api/lives", guarded([parts](const Request&) {
               return answer(show_parts(parts.shop, parts.studies, parts.forecasts, parts.clock()));
             }));
  router.add("GET", "/api/lives/{kind}/{task}",
             guarded([parts](const Request& request) { return answer(part(parts, request)); }));
  router.add("POST", "/api/lives/{kind}/{task}/interval", guarded([parts](const Request& request) {
               return answer_edit<service::IntervalEdit>(request, [&](const auto& edit) {
                 return move_interval(parts.shop, parts.studies, parts.forecasts, part_of(request), edit,
                                      parts.clock());
               });
             }));
}

}  // namespace hw::web
