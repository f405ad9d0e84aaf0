#include "src/web/api.h"

#include "src/web/answers.h"
#include "src/web/machine_limits.h"
#include "src/web/rounds_api.h"
#include "src/web/routes.h"

namespace hw::web {
namespace {

using http::Request;
using http::Response;

Result<service::CounterDaysView> days(const ApiParts& parts, const Request& request) {
  const auto counter = request.query_value("counter");
  if (!counter) return refuse(ErrorCode::bad_input, "counter: it is missing; for example counter=operating");
  HW_TAKE(first, query_date(request, "from"));
  HW_TAKE(last, query_date(request, "to"));
  return service::show_days(parts.shop, request.path_value("machine"), *counter, first, last, parts.clock());
}

// Who is limited to some machines is not told who works here.
service::ShopView shop_view(const ApiParts& parts, const Request& request) {
  service::ShopView view = show_shop(parts.shop, parts.clock());
  view.group = parts.group != nullptr;
  if (const auto& from_edge = parts.shop.from_edge(); from_edge && from_edge->number > 0) {
    view.from_edge_at = from_edge->made_at;
  }
  view.kept_at_edge = parts.shop.from_edge().has_value();
  view.loopback_only = parts.reach.addresses().empty();
  if (request.limited_to) view.people.clear();
  return view;
}

Response events(const ApiParts& parts, const Request& request) {
  if (!request.limited_to) return Response::events(parts.events.subscribe());
  return Response::events(
      parts.events.subscribe([request](std::string_view machine) { return reaches(request, machine); }));
}

void add_views(http::Router& router, const ApiParts& parts) {
  router.add("GET", "/api/openapi.json", [parts](const Request&) { return Response::json(parts.contract_json); });
  router.add("GET", "/api/shop", [parts](const Request& request) { return answer(shop_view(parts, request)); });
  router.add("GET", "/api/floor",
             [parts](const Request& request) { return Response::json(parts.floor.floor(request, parts.clock())); });
  router.add("GET", "/api/machines/{machine}", guarded([parts](const Request& request) {
               return answer(show_machine(parts.shop, request.path_value("machine"), parts.clock()));
             }));
  router.add("GET", "/api/machines/{machine}/days",
             guarded([parts](const Request& request) { return answer(days(parts, request)); }));
  router.add("GET", "/api/events", [parts](const Request& request) { return events(parts, request); });
}

void add_task_edits(http::Router& router, const ApiParts& parts) {
  router.add("POST", "/api/machines/{machine}/tasks", guarded([parts](const Request& request) {
               return answer_edit<service::TaskEdit>(request, [&](const auto& edit) {
                 return add_task(parts.shop, request.path_value("machine"), edit, parts.clock());
               });
             }));
  router.add("PUT", "/api/machines/{machine}/tasks/{task}", guarded([parts](const Request& request) {
               return answer_edit<service::TaskEdit>(request, [&](const auto& edit) {
                 return change_task(parts.shop, request.path_value("machine"), request.path_value("task"), edit,
                                    parts.clock());
               });
             }));
  router.add("POST", "/api/machines/{machine}/tasks/{task}/retire", guarded([parts](const Request& request) {
               return answer_edit<service::Signature>(request, [&](const auto& edit) {
                 return retire_task(parts.shop, request.path_value("machine"), request.path_value("task"), edit,
                                    parts.clock());
               });
             }));
}

void add_done(http::Router& router, const ApiParts& parts) {
  router.add("POST", "/api/machines/{machine}/tasks/{task}/done", guarded([parts](const Request& request) {
               return answer_edit<service::DoneEdit>(request, [&](const auto& edit) {
                 return mark_done(parts.shop, request.path_value("machine"), request.path_value("task"), edit,
                                  parts.clock());
               });
             }));
  router.add("POST", "/api/entries/{entry}/undo", guarded([parts](const Request& request) {
               return answer_edit<service::Signature>(request, [&](const auto& edit) {
                 return undo(parts.shop, request.path_value("entry"), edit, parts.clock());
               });
             }));
}

void add_hour_readings(http::Router& router, const ApiParts& parts) {
  router.add("POST", "/api/machines/{machine}/hour-readings", guarded([parts](const Request& request) {
               return answer_edit<service::HourReadingEdit>(request, [&](const auto& edit) {
                 return read_hours(parts.shop, request.path_value("machine"), edit, parts.clock());
               });
             }));
  router.add("POST", "/api/machines/{machine}/hour-readings/{reading}/settle", guarded([parts](const Request& request) {
               return answer_edit<service::SettleEdit>(request, [&](const auto& edit) {
                 return settle_hours(parts.shop, request.path_value("machine"), request.path_value("reading"), edit,
                                     parts.clock());
               });
             }));
}

}  // namespace

void add_api(http::Router& router, const ApiParts& parts) {
  add_views(router, parts);
  add_task_edits(router, parts);
  add_done(router, parts);
  add_hour_readings(router, parts);
  add_rounds(router, parts);
  add_photo_routes(router, parts);
  add_edge_routes(router, parts);
  add_finding_routes(router, parts);
  add_life_routes(router, parts);
  add_logbook_routes(router, parts);
  add_plan_routes(router, parts);
  add_stop_routes(router, parts);
  add_stores_routes(router, parts);
  add_stores_sheet_routes(router, parts);
  add_group_routes(router, parts);
  add_job_card_route(router, parts);
  add_label_routes(router, parts);
  add_forecast_routes(router, parts);
  add_month_routes(router, parts);
  add_proposal_routes(router, parts);
  add_rehearsal_routes(router, parts);
  add_reading_routes(router, parts);
}

}  // namespace hw::web
