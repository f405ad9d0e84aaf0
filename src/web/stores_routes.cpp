#include "src/service/stores_cases.h"
#include "src/web/answers.h"
#include "src/web/routes.h"

namespace hw::web {
namespace {

using http::Request;

void add_looks(http::Router& router, const ApiParts& parts) {
  router.add("GET", "/api/stores",
             guarded([parts](const Request&) { return answer(show_stores(parts.shop, parts.stores, parts.clock())); }));
  router.add("GET", "/api/stores/parts/{part}", guarded([parts](const Request& request) {
               return answer(show_stored_part(parts.shop, parts.stores, request.path_value("part"), parts.clock()));
             }));
  router.add("GET", "/api/stores/orders",
             guarded([parts](const Request&) { return answer(show_orders(parts.shop, parts.stores, parts.clock())); }));
  router.add("GET", "/api/stores/readiness",
             guarded([parts](const Request&) { return answer(show_readiness(parts.shop, parts.clock())); }));
  router.add("GET", "/api/stores/kits", guarded([parts](const Request&) { return answer(show_kits(parts.shop)); }));
}

// The part as it is afterwards.
Result<service::PartStoresView> kept_part(const ApiParts& parts, const Request& request,
                                          const service::StoredPartEdit& edit) {
  HW_TRY(keep_part(parts.shop, request.path_value("part"), edit, parts.clock()));
  return show_stored_part(parts.shop, parts.stores, request.path_value("part"), parts.clock());
}

void add_part_edits(http::Router& router, const ApiParts& parts) {
  router.add("PUT", "/api/stores/parts/{part}", guarded([parts](const Request& request) {
               return answer_edit<service::StoredPartEdit>(
                   request, [&](const auto& edit) { return kept_part(parts, request, edit); });
             }));
  router.add("POST", "/api/stores/parts/{part}/end", guarded([parts](const Request& request) {
               return answer_edit<service::Signature>(request, [&](const auto& edit) {
                 return end_part(parts.shop, request.path_value("part"), edit, parts.clock());
               });
             }));
  router.add("POST", "/api/stores/tasks-parts", guarded([parts](const Request& request) {
               return answer_edit<service::Signature>(
                   request, [&](const auto& edit) { return begin_stores(parts.shop, edit, parts.clock()); });
             }));
  router.add("PUT", "/api/stores/kits", guarded([parts](const Request& request) {
               return answer_edit<service::KitEdit>(
                   request, [&](const auto& edit) { return keep_kit(parts.shop, edit, parts.clock()); });
             }));
}

void add_movements(http::Router& router, const ApiParts& parts) {
  router.add("POST", "/api/stores/movements", guarded([parts](const Request& request) {
               return answer_edit<service::MovementEdit>(
                   request, [&](const auto& edit) { return move_stock(parts.shop, edit, parts.clock()); });
             }));
  router.add("POST", "/api/stores/orders", guarded([parts](const Request& request) {
               return answer_edit<service::OrderEdit>(
                   request, [&](const auto& edit) { return place_order(parts.shop, edit, parts.clock()); });
             }));
  router.add("POST", "/api/stores/orders/{order}/change", guarded([parts](const Request& request) {
               return answer_edit<service::OrderChange>(request, [&](const auto& edit) {
                 return change_order(parts.shop, request.path_value("order"), edit, parts.clock());
               });
             }));
}

}  // namespace

void add_stores_routes(http::Router& router, const ApiParts& parts) {
  add_looks(router, parts);
  add_part_edits(router, parts);
  add_movements(router, parts);
}

}  // namespace hw::web
