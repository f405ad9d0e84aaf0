#pragma once
// A shop's record: hourwright.db (SQLite) in its data folder, or a PostgreSQL database that the folder names; and the
// lock that keeps a second server out of the folder.

#include <filesystem>
#include <memory>

#include "src/record/verify.h"
#include "src/service/store.h"
#include "src/storage/edge_shipments.h"
#include "src/storage/shared_database.h"

namespace hw::storage {

// Refuses (not_found) a folder in which no shop has been made. Makes nothing.
Result<void> find_store(const std::filesystem::path& folder);

// Opens the folder's database, making folder and database where there are none, and brings its schema up to date.
// Refuses: not_found (the folder above it is missing), in_use (another server has the folder, or, of a database on a
// server, the plant), unsupported (a network
// file system, or a newer program's schema), disk_full, corrupt, bad_input (hourwright.db is something else), and
// what sql::open_postgres refuses.
Result<std::unique_ptr<service::Store>> open_store(const std::filesystem::path& folder, const StoreTerms& terms = {});

// The folder of a plant's edge: its store, and what it sends. Its shop lies in the folder's file. Refuses as open_store
// does, and (unsupported) a folder whose shop lies in a database on a server.
struct OpenEdge {
  std::unique_ptr<KeptStore> store;
  std::unique_ptr<EdgeShipments> shipments;
};
Result<OpenEdge> open_edge(const std::filesystem::path& folder);

// The plants of the database that the folder names, as this process shares them with others. Refuses besides
// wrong_usage: the folder has a file of its own.
Result<std::unique_ptr<service::Plants>> open_plants(const std::filesystem::path& folder, const StoreTerms& terms);

// The file of a data folder, opened and brought up to date: what a KeptStore keeps in. `new_plant`: see StoreTerms.
// Refuses as open_store does.
Result<KeptAt> keep_in_file(const DatabasePlace& place, std::shared_ptr<sql::FolderLock> lock,
                            const std::string& new_plant = "");

// What there is in a folder's shop, beside a server or without one; changes nothing. Tasks come without their last
// done. Refuses as find_store does, unsupported where another version of the program wrote it, not_found where nothing
// was founded.
Result<service::ShopWithMachines> look_into(const std::filesystem::path& folder);

// The accounts of a folder's shop, beside a server or without one; changes nothing. Refuses as look_into does.
Result<std::vector<service::Account>> look_at_accounts(const std::filesystem::path& folder);

// Reads the folder's logbook from its first entry to its head and says whether it is as it was written, beside a server
// or without one; changes nothing. `noted` is a hash that was noted once. Refuses as find_store and open_store do, and
// (corrupt) where the tables are not as this program makes them.
Result<record::Verdict> verify_logbook(const std::filesystem::path& folder, const std::optional<std::string>& noted);

}  // namespace hw::storage
