#include "src/web/answers.h"
#include "src/web/machine_limits.h"
#include "src/web/routes.h"

namespace hw::web {
namespace {

using http::Request;
using service::StopsShown;

Result<service::StopsView> stops(const ApiParts& parts, const Request& request) {
  service::StopsQuery query;
  if (const auto machine = request.query_value("machine")) query.machine = *machine;
  const auto state = request.query_value("state").value_or("agreed");
  const auto shown = formats::parse_word<StopsShown>(state);
  if (!shown) {
    return refuse(ErrorCode::bad_input, "state: \"{}\" is none of {}", state.substr(0, 60),
                  formats::print_words<StopsShown>());
  }
  query.shown = *shown;
  HW_TAKE(view, show_stops(parts.shop, query));
  keep_reachable(request, view.stops, &service::StopView::machine);
  return std::move(view);
}

// A route that tells something of a stop by an edit.
template <class Edit, class Use>
void add_stop_edit(http::Router& router, const ApiParts& parts, std::string_view verb, Use use) {
  router.add("POST", fmt::format("/api/stops/{{stop}}/{}", verb), guarded([parts, use](const Request& request) {
               return answer_edit<Edit>(request, [&](const auto& edit) {
                 return use(parts.shop, request.path_value("stop"), edit, parts.clock());
               });
             }));
}

}  // namespace

void add_stop_routes(http::Router& router, const ApiParts& parts) {
  router.add("GET", "/api/stops", guarded([parts](const Request& request) { return answer(stops(parts, request)); }));
  router.add("GET", "/api/stops/{stop}", guarded([parts](const Request& request) {
               return answer(show_stop(parts.shop, request.path_value("stop"), parts.clock()));
             }));
  router.add("POST", "/api/machines/{machine}/stops", guarded([parts](const Request& request) {
               return answer_edit<service::StopEdit>(request, [&](const auto& edit) {
                 return agree_stop(parts.shop, request.path_value("machine"), edit, parts.clock());
               });
             }));
  add_stop_edit<service::StopChange>(router, parts, "change", service::change_stop);
  add_stop_edit<service::StopWithdraw>(router, parts, "withdraw", service::withdraw_stop);
  add_stop_edit<service::StopClose>(router, parts, "close", service::close_stop);
}

}  // namespace hw::web
