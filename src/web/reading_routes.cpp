#include "src/web/answers.h"
#include "src/web/routes.h"

namespace hw::web {
namespace {

using http::Request;

Result<service::ReadingWorkingView> reading_working(const ApiParts& parts, const Request& request) {
  const auto what = request.query_value("what");
  if (!what) return refuse(ErrorCode::bad_input, "what: it is missing; for example what=supply air");
  return show_reading(parts.shop, request.path_value("machine"), request.path_value("task"), *what, parts.clock());
}

}  // namespace

void add_reading_routes(http::Router& router, const ApiParts& parts) {
  router.add("GET", "/api/machines/{machine}/readings", guarded([parts](const Request& request) {
               return answer(show_readings(parts.shop, request.path_value("machine"), parts.clock()));
             }));
  router.add("GET", "/api/machines/{machine}/readings/{task}",
             guarded([parts](const Request& request) { return answer(reading_working(parts, request)); }));
}

}  // namespace hw::web
