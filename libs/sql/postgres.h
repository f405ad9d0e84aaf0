#pragma once
// PostgreSQL 15 or later behind Connection, by libpq. Every commit is on the server's disk when it returns.
//
// What is different from SQLite: text holds no character 0 (bad_input), an argument has to be of its column's type, and
// the rows of a query, but for a stream, are held in memory until they are read.

#include <chrono>
#include <cstdint>
#include <memory>
#include <string>

#include "libs/sql/connection.h"

namespace hw::sql {

struct PostgresOptions {
  // Writing transactions of all connections with the same number and for the same tenant go one after the other, as
  // SQLite's do.
  std::int32_t writers = 0;
  std::chrono::milliseconds busy_timeout{5'000};  // how long to wait for another's write
  std::chrono::seconds connect_within{10};
};

// Whether text is the address of a PostgreSQL database: postgresql://HOST/DATABASE, with what libpq knows besides.
bool is_postgres_address(std::string_view text);

// Opens the database, which has to be there. Everything that is wrong at the door is a refusal: bad_input (no address
// of that kind; the database's text is not UTF-8), unreachable, not_found (no such database), not_allowed (user or
// password), in_use (the server takes no more connections), unsupported (a server before 15). The message never holds a
// password.
Result<std::unique_ptr<Connection>> open_postgres(const std::string& address, Access access,
                                                  const PostgresOptions& options);

}  // namespace hw::sql
