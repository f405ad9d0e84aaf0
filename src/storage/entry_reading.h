#pragma once
// Entries as they come out of the table: the columns that a statement selects, and what they are.

#include <string_view>
#include <vector>

#include "libs/sql/connection.h"
#include "src/service/records.h"

namespace hw::storage {

// What a statement on the table `entry e` selects for the functions below.
std::string_view entry_columns();

// The entry of the present row, but for which entries correct it. Refuses (corrupt) what does not read.
Result<service::Entry> entry_alone(const sql::Rows& rows);
// The same with them.
Result<service::Entry> read_entry(sql::Connection& db, const sql::Rows& rows);
// Those of all rows.
Result<std::vector<service::Entry>> read_entries(sql::Connection& db, sql::Rows& rows);

}  // namespace hw::storage
