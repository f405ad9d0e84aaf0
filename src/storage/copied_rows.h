#pragma once
// Every row of a shop, from one database into another, whichever two of SQLite and PostgreSQL they are.

#include <string>
#include <vector>

#include "libs/sql/connection.h"

namespace hw::storage {

// Copies all rows of the plant for which both act, as they are at one moment: within a transaction of the caller's on
// both. `to` has the same tables, and nothing of that plant in them. Little more than one row is in memory at a time.
// Errors: conflict where there is something.
Result<void> copy_rows(sql::Connection& from, sql::Connection& to);

}  // namespace hw::storage
