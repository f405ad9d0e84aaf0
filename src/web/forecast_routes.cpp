#include "src/web/answers.h"
#include "src/web/routes.h"

namespace hw::web {
namespace {

using http::Request;

Result<service::BacktestView> backtest(const ApiParts& parts, const Request& request) {
  const auto counter = request.query_value("counter");
  if (!counter) return refuse(ErrorCode::bad_input, "counter: it is missing; for example counter=operating");
  return show_backtest(parts.forecasts, request.path_value("machine"), *counter, parts.clock());
}

}  // namespace

void add_forecast_routes(http::Router& router, const ApiParts& parts) {
  router.add("GET", "/api/horizon", guarded([parts](const Request& request) {
               return answer(show_horizon(parts.shop, parts.forecasts, request.query_value("machine"), parts.clock()));
             }));
  router.add("GET", "/api/machines/{machine}/tasks/{task}/forecast", guarded([parts](const Request& request) {
               return answer(show_forecast(parts.shop, parts.forecasts, request.path_value("machine"),
                                           request.path_value("task"), parts.clock()));
             }));
  router.add("GET", "/api/machines/{machine}/backtest",
             guarded([parts](const Request& request) { return answer(backtest(parts, request)); }));
  router.add("GET", "/api/today", guarded([parts](const Request&) {
               return answer(show_today(parts.shop, parts.forecasts, parts.studies, parts.stores, parts.clock()));
             }));
  router.add("GET", "/api/use-changes", [parts](const Request&) { return answer(show_use_changes(parts.shop)); });
  router.add("POST", "/api/use-changes", guarded([parts](const Request& request) {
               return answer_edit<service::UseChangeEdit>(
                   request, [&](const auto& edit) { return announce_use(parts.shop, edit, parts.clock()); });
             }));
  router.add("POST", "/api/use-changes/{change}/withdraw", guarded([parts](const Request& request) {
               return answer_edit<service::Signature>(request, [&](const auto& edit) {
                 return withdraw_use(parts.shop, request.path_value("change"), edit, parts.clock());
               });
             }));
}

}  // namespace hw::web
