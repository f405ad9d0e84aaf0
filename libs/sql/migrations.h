#pragma once
// The schema's history. Each step runs once, in a transaction of its own together with the version that it leads to, so
// that a crash leaves the schema before or after a step, never between.

#include <span>
#include <string>

#include "libs/sql/connection.h"

namespace hw::sql {

struct Migration {
  int version;      // 1, 2, 3, ... without a gap
  std::string sql;  // one or more statements
};

// Applies what is missing and says how many steps that were. Errors: unsupported where the database is newer than the
// last migration that this program knows; conflict where the data stands against a step.
Result<int> apply_migrations(Connection& connection, std::span<const Migration> migrations);

}  // namespace hw::sql
