#pragma once
// SQLite behind Connection. One file, in WAL mode, every commit on disk when it returns (synchronous=FULL).
// One connection of one process writes, and it alone checkpoints; any number read. That rule also keeps out a race
// between several writers that SQLite 3.40 has when the write-ahead log starts anew.

#include <chrono>
#include <cstdint>
#include <filesystem>
#include <memory>

#include "libs/sql/connection.h"

namespace hw::sql {

struct SqliteOptions {
  std::int32_t application_id = 0;                // four letters in the file's header that say whose it is; not 0
  std::chrono::milliseconds busy_timeout{5'000};  // how long to wait for another's write
  std::uint32_t pages_max = 0;                    // upper limit of the file's length in pages of 4 KiB; 0 for none
};

// Opens the file and sets it up: foreign keys on, trusted_schema off, WAL, FULL. A new file gets the application id.
// Everything that is wrong at the door is a refusal: not_found, in_use, bad_input (the file belongs to another
// program), corrupt (it is damaged, or no database at all), disk_full (it cannot be written), unsupported (no WAL is
// possible).
Result<std::unique_ptr<Connection>> open_sqlite(const std::filesystem::path& file, Access access,
                                                const SqliteOptions& options);

// A database in memory, empty, gone with its connection: for what is made once to be compared.
Result<std::unique_ptr<Connection>> open_sqlite_in_memory();

}  // namespace hw::sql
