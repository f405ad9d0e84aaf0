#pragma once
// What follows from entries: which tasks they did, the walks that they began, the answers that they gave, what they
// correct, whether they wait for the lead, and the findings and stops that they are about. Only entries are the record;
// these rows are written in the same transaction, and come out the same when they are made again from all entries.

#include "libs/sql/connection.h"
#include "src/service/records.h"

namespace hw::storage {

// Writes the rows that follow from a new entry.
Result<void> derive_rows(sql::Connection& db, const service::Entry& entry);

}  // namespace hw::storage
