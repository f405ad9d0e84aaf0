#pragma once
// A shop's record in one folder: hourwright.db (SQLite) and the lock that keeps a second server out.

#include <filesystem>
#include <memory>

#include "src/service/store.h"

namespace hw::storage {

// Refuses (not_found) a folder in which no shop has been made. Makes nothing.
Result<void> find_store(const std::filesystem::path& folder);

// Opens the folder's database, making folder and database where there are none, and brings its schema up to date.
// Refuses: not_found (the folder above it is missing), in_use (another server has the folder), unsupported (a network
// file system, or a newer program's schema), disk_full, corrupt, bad_input (hourwright.db is something else).
Result<std::unique_ptr<service::Store>> open_store(const std::filesystem::path& folder);

}  // namespace hw::storage
