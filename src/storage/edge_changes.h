#pragma once
// Which rows of the plant in a data folder's file have changed: noted by the database's own triggers, in the
// transaction that changes them. A row is noted once, at its last change.

#include <cstdint>

#include "libs/sql/connection.h"

namespace hw::storage {

// Begins to note, within a transaction of the caller's. All rows of a table whose changes were not noted so far count
// as changed.
Result<void> note_changes(sql::Connection& db);
// From now on all rows count as changed.
Result<void> note_all_rows(sql::Connection& db);

// The place of the last change that stands noted; 0: none does.
Result<std::int64_t> last_change(sql::Connection& db);
Result<std::int64_t> count_changes(sql::Connection& db);
// Those up to this place are not noted any more.
Result<void> forget_changes(sql::Connection& db, std::int64_t upto);

// The rows of a table that changed up to this place, with these columns, in the order of their changes; and the keys of
// those that are gone, with the columns of its key. For Connection::stream, with the plant, the table and the place.
std::string changed_rows_query(const std::string& table, const std::vector<std::string>& columns);
std::string gone_rows_query(const std::string& table);

}  // namespace hw::storage
