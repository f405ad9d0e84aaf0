#include <limits>

#include "src/web/answers.h"
#include "src/web/routes.h"

namespace hw::web {
namespace {

using http::Request;
using service::ShipmentsView;

Result<ShipmentsView> shipments(const ApiParts& parts) {
  service::Store& store = parts.shop.store();
  HW_TAKE(taken, store.edge_taken());
  if (!taken) {
    return refuse(ErrorCode::not_found,
                  "the record of this plant is kept here; hourwright found --edge makes a plant whose is not");
  }
  HW_TAKE(here, store.pieces_here());
  const bool is_first = taken->number == 0;
  return ShipmentsView{taken->number, taken->sha256, is_first ? formats::OrNull<Instant>{} : taken->made_at,
                       is_first ? formats::OrNull<Instant>{} : taken->taken_at, formats::or_null(here)};
}

template <class Number>
Result<Number> number_in(std::string_view name, std::string_view text) {
  Number number{};
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
  if (error == std::errc{} && end == text.data() + text.size()) return number;
  return refuse(ErrorCode::bad_input, "{}: \"{}\" is no whole number", name, text.substr(0, 40));
}

Result<service::ShipmentPiece> piece_of(Request& request) {
  service::ShipmentPiece piece;
  HW_TAKE(number, number_in<std::int64_t>("shipment", request.path_value("shipment")));
  HW_TAKE(place, number_in<int>("piece", request.path_value("piece")));
  HW_TAKE(of, query_number<int>(request, "of"));
  piece.number = number;
  piece.piece = place;
  piece.pieces = of.value_or(1);
  piece.sha256 = request.query_value("sha256").value_or("");
  piece.bytes = std::move(request.body);
  return piece;
}

Result<service::PieceTakenView> take(const ApiParts& parts, Request& request) {
  HW_TAKE(piece, piece_of(request));
  HW_TAKE(is_taken, parts.shop.store().take_piece(piece, parts.clock()));
  if (is_taken && parts.outdated) parts.outdated();
  return service::PieceTakenView{is_taken};
}

}  // namespace

void add_edge_routes(http::Router& router, const ApiParts& parts) {
  router.add("GET", "/api/edge/shipments", guarded([parts](const Request&) { return answer(shipments(parts)); }));
  router.add("PUT", "/api/edge/shipments/{shipment}/pieces/{piece}",
             guarded([parts](Request request) { return answer(take(parts, request)); }));
}

}  // namespace hw::web
