#pragma once
// The schema's history. Each step runs once. All that are missing run in one transaction together with the version that
// they lead to, so that a crash, or a step that the data stands against, leaves the database as it was.

#include <span>
#include <string>

#include "libs/sql/connection.h"

namespace hw::sql {

struct Migration {
  int version;      // 1, 2, 3, ... without a gap
  std::string sql;  // one or more statements
};

// Applies what is missing, all or nothing, and says how many steps that were. Errors: unsupported where the database is
// newer than the last migration that this program knows; conflict where the data stands against a step.
Result<int> apply_migrations(Connection& connection, std::span<const Migration> migrations);

}  // namespace hw::sql
