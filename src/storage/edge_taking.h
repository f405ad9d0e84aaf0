#pragma once
// What a plant's edge sent, taken into the plant's rows at its group.

#include "libs/formats/byte_source.h"
#include "libs/sql/connection.h"
#include "libs/values/sha256.h"
#include "src/service/shipments.h"

namespace hw::storage {

// From now on the plant's record comes from its edge.
Result<void> await_shipments(sql::Connection& db);

// See service::Store.
Result<std::optional<service::ShipmentTaken>> read_taken(sql::Connection& db);
Result<std::optional<service::PiecesHere>> read_pieces(sql::Connection& db);

// `db` is within a transaction, which the caller commits where this is a value; `earlier` reads the pieces that are
// there already, while `db` stores rows.
struct TakingInto {
  sql::Connection& db;
  sql::Connection& earlier;
};
Result<bool> take_piece(const TakingInto& into, const service::ShipmentPiece& piece, Instant now);
Result<void> forget_pieces(sql::Connection& db);

// Refuses (bad_input) what is no piece: numbers out of their ranges, a hash of another form.
Result<void> check_piece(const service::ShipmentPiece& piece);

}  // namespace hw::storage
