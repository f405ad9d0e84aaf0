#pragma once
// Whether two databases hold the same of a plant, whichever of SQLite and PostgreSQL they are.

#include <cstdint>
#include <span>
#include <string>
#include <vector>

#include "libs/sql/connection.h"
#include "src/storage/schema.h"

namespace hw::storage {

struct TableRows {
  std::string table;
  std::int64_t rows = 0;
};

struct RecordDigest {
  std::string sha256;             // over every row of the tables, in 64 hexadecimal digits
  std::vector<TableRows> tables;  // in their order
};

// Of these tables, and the plant for which `db` acts, as it is at one moment: within a transaction of the caller's. One
// row is in memory at a time. Refuses what a query refuses.
Result<RecordDigest> record_digest(sql::Connection& db, std::span<const std::string> tables = table_names());

}  // namespace hw::storage
