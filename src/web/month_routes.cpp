#include "src/web/answers.h"
#include "src/web/routes.h"

namespace hw::web {
namespace {

service::MonthQuery month_asked(const http::Request& request) {
  service::MonthQuery query;
  query.month = request.path_value("month");
  if (const auto machine = request.query_value("machine")) query.machine = *machine;
  if (const auto kind = request.query_value("kind")) query.kind = *kind;
  return query;
}

}  // namespace

void add_month_routes(http::Router& router, const ApiParts& parts) {
  router.add("GET", "/api/months/{month}", guarded([parts](const http::Request& request) {
               return answer(show_month(parts.shop, month_asked(request), parts.clock()));
             }));
}

}  // namespace hw::web
