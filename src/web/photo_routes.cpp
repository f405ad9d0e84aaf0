#include "src/service/photo_type.h"
#include "src/web/answers.h"
#include "src/web/origin_check.h"
#include "src/web/routes.h"

namespace hw::web {
namespace {

using http::Request;
using http::Response;

// The bytes are somebody's: shown as the picture that they are by their first bytes and nothing else, and without any
// right if a browser takes them for a document after all. Under an id they never change.
Response shown(service::Photo photo) {
  std::string type{service::photo_type_of(photo.bytes).value_or("application/octet-stream")};
  Response response = Response::of(200, std::move(type), std::move(photo.bytes));
  response.headers.set("Cache-Control", "private, max-age=31536000, immutable");
  response.headers.set("Content-Security-Policy", "default-src 'none'; sandbox");
  return response;
}

Response keep(const ApiParts& parts, Request request) {
  service::PhotoEdit edit{std::string{request.path_value("photo")}, media_type_of(request), std::move(request.body)};
  return answer(keep_photo(parts.shop, edit));
}

Response show(const ApiParts& parts, const Request& request) {
  auto photo = find_photo(parts.shop, request.path_value("photo"));
  return photo ? shown(*std::move(photo)) : http::problem(photo.error());
}

}  // namespace

void add_photo_routes(http::Router& router, const ApiParts& parts) {
  router.add("PUT", "/api/photos/{photo}",
             guarded([parts](Request request) { return keep(parts, std::move(request)); }));
  router.add("GET", "/api/photos/{photo}", guarded([parts](const Request& request) { return show(parts, request); }));
}

}  // namespace hw::web
