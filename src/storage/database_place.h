#pragma once
// Where the database of a data folder lies: hourwright.db in the folder, which holds one plant, or the PostgreSQL
// database whose address stands in the folder's file `database`, which holds any number of them.

#include <filesystem>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "libs/sql/migrations.h"

namespace hw::storage {

// A shop's file in its data folder, and in a copy.
inline constexpr const char* database_file = "hourwright.db";

struct DatabasePlace {
  std::filesystem::path folder;
  std::string address = {};  // postgresql://...; empty: hourwright.db
  std::string plant = {};    // which of its plants; empty: the only one

  bool is_on_server() const { return !address.empty(); }
  std::filesystem::path file() const { return folder / database_file; }
};

// Refuses a file `database` that does not read, or holds no address (corrupt), and a folder whose move was begun and
// not ended (conflict).
Result<DatabasePlace> place_of(const std::filesystem::path& folder);

// Notes the address, and the plant where one is named, for good, readable by the owner only; makes the folder where it
// is missing. The same again is nothing new. Refuses: bad_input (no address of that kind, no key of a plant), conflict
// (the folder has a database already), and what make_folder refuses.
Result<void> place_on_server(const std::filesystem::path& folder, const std::string& address,
                             const std::string& plant = "");

// The move of a folder's shop from its file into the plant of a database on a server. From begin_move on the folder is
// refused by place_of: which of the two places holds the shop is known only to who moves it. The note is on disk when
// they return. Refuse: disk_full.
Result<void> begin_move(const DatabasePlace& to);
Result<void> end_move(const DatabasePlace& to);                  // it lies there now
Result<void> give_up_move(const std::filesystem::path& folder);  // it lies in its file, as before
// Where a move goes that was begun and not ended; nothing where there is none. Refuses as place_of does.
Result<std::optional<DatabasePlace>> begun_move(const std::filesystem::path& folder);

// Makes the folder, but not those above it: they are more likely misspelt than meant. Refuses: not_found (the one above
// is missing), bad_input (it is a file), disk_full (it cannot be made).
Result<void> make_folder(const std::filesystem::path& folder);

// Opens it as sql::open_sqlite or sql::open_postgres does; it acts for the plant of the place. Refuses besides
// bad_input: several plants, and none of them named.
Result<std::unique_ptr<sql::Connection>> open_database(const DatabasePlace& place, sql::Access access);

// The database that is open at the place acts for the plant of the place from now on.
Result<void> act_for_plant(sql::Connection& db, const DatabasePlace& place);

// The plants of a database, in the order of their keys; none before the tables are made.
Result<std::vector<std::string>> plants_of(sql::Connection& db);

// Refuses what cannot be the key of a plant (bad_input): it stands in addresses of pages.
Result<void> check_plant_key(std::string_view key);

// Brings the tables up to this program's, all steps or none, in the words of the database.
Result<void> apply_steps(sql::Connection& db, const DatabasePlace& place, std::span<const sql::Migration> steps);

}  // namespace hw::storage
