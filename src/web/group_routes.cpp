#include "src/web/answers.h"
#include "src/web/routes.h"

namespace hw::web {

void add_group_routes(http::Router& router, const ApiParts& parts) {
  router.add("GET", "/api/group/floor", [parts](const http::Request&) {
    if (!parts.group) {
      return http::problem(
          {ErrorCode::not_found, "this is the site of a plant; the group's plants are at the group's own"});
    }
    return http::Response::json(parts.group->floor(parts.clock()));
  });
}

}  // namespace hw::web
