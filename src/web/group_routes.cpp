#include "src/web/answers.h"
#include "src/web/routes.h"

namespace hw::web {
namespace {

http::Response no_group() {
  return http::problem(
      {ErrorCode::not_found, "this is the site of a plant; the group's plants are at the group's own"});
}

}  // namespace

void add_group_routes(http::Router& router, const ApiParts& parts) {
  router.add("GET", "/api/group/floor", [parts](const http::Request&) {
    return parts.group ? http::Response::json(parts.group->lines.floor(parts.clock())) : no_group();
  });
  router.add("GET", "/api/group/lives", [parts](const http::Request&) {
    return parts.group ? answer(parts.group->lives.parts(parts.clock())) : no_group();
  });
  router.add("GET", "/api/group/lives/{kind}/{task}", [parts](const http::Request& request) {
    if (!parts.group) return no_group();
    const service::PartName name{std::string{request.path_value("kind")}, std::string{request.path_value("task")}};
    return answer(parts.group->lives.part(name, parts.clock()));
  });
  router.add("GET", "/api/group/visits", [parts](const http::Request&) {
    return parts.group ? http::Response::json(parts.group->lines.visits(parts.clock())) : no_group();
  });
}

}  // namespace hw::web
