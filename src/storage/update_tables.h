#pragma once
// The tables of an older version of the program brought up to this one's.

#include <span>

#include "src/storage/database_place.h"

namespace hw::storage {

// Applies the steps that are missing, all or none. Where there are tables already, first makes a checked copy beside
// them, before-update-TIME.copy, which is kept until the next update has its own. Refuses: unsupported (a newer
// program's tables), disk_full (there must be room for the copy and for the update: three times the database), what
// make_copy refuses, and what the steps refuse; the tables are then as they were.
Result<void> update_tables(const DatabasePlace& place, sql::Connection& writer, std::span<const sql::Migration> steps);

}  // namespace hw::storage
