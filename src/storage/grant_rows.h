#pragma once
// The table grant_left: what the command line leaves for whichever server holds the plant, where the database is on a
// server. As grant_files.h has it for a file.

#include "libs/sql/connection.h"
#include "src/service/access_rows.h"

namespace hw::storage {

Result<void> insert_grant(sql::Connection& db, const std::string& secret_hash, const service::Grant& grant);
// Nothing where there is no such row. Refuses (corrupt) one that does not read.
Result<std::optional<service::Grant>> read_grant(sql::Connection& db, const std::string& secret_hash);
// That it is gone already is right.
Result<void> delete_grant(sql::Connection& db, const std::string& secret_hash);

}  // namespace hw::storage
