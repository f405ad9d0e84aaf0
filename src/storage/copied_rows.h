#pragma once
// Every row of a shop, from one database into another, whichever two of SQLite and PostgreSQL they are.

#include <string>
#include <vector>

#include "libs/sql/connection.h"

namespace hw::storage {

// Our tables in the order in which they were made: what a row refers to comes before it.
const std::vector<std::string>& table_names();

// Copies all rows of all tables as they are at one moment, in one transaction. `to` has the same tables, and nothing in
// them. One table's rows are in memory at a time where `from` is PostgreSQL. Errors: conflict where there is something.
Result<void> copy_rows(sql::Connection& from, sql::Connection& to);

}  // namespace hw::storage
