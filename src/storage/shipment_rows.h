#pragma once
// The rows of a shipment, stored.

#include "libs/formats/byte_source.h"
#include "libs/sql/connection.h"
#include "src/storage/shipment_text.h"

namespace hw::storage {

// Stores what the packed bytes have, within a transaction of the caller's, who rolls it back where this refuses; reads
// them to their end. Refuses: bad_input (no shipment, rows of another plant, values that their columns do not take),
// unsupported (of another version of the tables), conflict (another number; rows that do not go with those that are
// there; of a whole shipment, rows that are there besides).
Result<ShipmentHead> store_shipment(sql::Connection& db, formats::ByteSource& packed, std::int64_t number);

}  // namespace hw::storage
