#pragma once
// Where the database of a data folder lies: hourwright.db in the folder, or the PostgreSQL database whose address
// stands in the folder's file `database`.

#include <filesystem>
#include <memory>
#include <span>
#include <string>

#include "libs/sql/migrations.h"

namespace hw::storage {

struct DatabasePlace {
  std::filesystem::path folder;
  std::string address = {};  // postgresql://...; empty: hourwright.db

  bool is_on_server() const { return !address.empty(); }
  std::filesystem::path file() const { return folder / "hourwright.db"; }
};

// Refuses a file `database` that does not read, or holds no address (corrupt).
Result<DatabasePlace> place_of(const std::filesystem::path& folder);

// Notes the address for good, readable by the owner only; makes the folder where it is missing. The same again is
// nothing new. Refuses: bad_input (no address of that kind), conflict (the folder has a database already), and what
// make_folder refuses.
Result<void> place_on_server(const std::filesystem::path& folder, const std::string& address);

// Makes the folder, but not those above it: they are more likely misspelt than meant. Refuses: not_found (the one above
// is missing), bad_input (it is a file), disk_full (it cannot be made).
Result<void> make_folder(const std::filesystem::path& folder);

// Opens it as sql::open_sqlite or sql::open_postgres does. One on a server is written by one process at a time
// (in_use).
Result<std::unique_ptr<sql::Connection>> open_database(const DatabasePlace& place, sql::Access access);

// Brings the tables up to this program's, all steps or none, in the words of the database.
Result<void> apply_steps(sql::Connection& db, const DatabasePlace& place, std::span<const sql::Migration> steps);

}  // namespace hw::storage
