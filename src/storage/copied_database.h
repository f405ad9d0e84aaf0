#pragma once
// The database of a copy: taken from one that may be written meanwhile, and looked through afterwards.

#include <filesystem>
#include <string>

#include "libs/values/result.h"
#include "src/record/verify.h"
#include "src/storage/database_place.h"

namespace hw::storage {

// The version of the tables that this program makes.
int known_schema();

// Writes what a database holds at one moment into a new SQLite file, beside whoever has it open. Refuses: what opening
// it refuses, disk_full, corrupt (it does not read), unsupported (one on a server whose tables are of another version).
Result<void> take_snapshot(const DatabasePlace& place, const std::filesystem::path& file);

// Refuses (corrupt) a database whose pages, indexes or references do not hold together, with the first thing found.
Result<void> check_integrity(const std::filesystem::path& database);

struct DatabaseContent {
  int schema = 0;
  std::string plant;
  record::Verdict logbook;  // of the chain alone
};
// Refuses: not_found (no shop was founded in it), corrupt (no logbook's tables, or it does not read), unsupported (a
// newer program's tables).
Result<DatabaseContent> read_content(const std::filesystem::path& database);

}  // namespace hw::storage
