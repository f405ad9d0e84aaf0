#pragma once
// Copies of a shop: made beside a running server, checked, and restored. What is needed to go on is in them: the
// database and, where there is HTTPS, the folder tls with its keys, so a copy is readable by its owner only.

#include <filesystem>

#include "src/copies/copy_report.h"

namespace hw::storage {

// Makes a copy of a data folder's shop as of one moment. It is written under a name of its own, put on disk, unpacked
// again and checked as check_copy does; only then it takes its place. A logbook that is not as it was written is copied
// as it is, and the report says so. Refuses: what find_store refuses, conflict (the file is there), not_found (its
// folder is not), disk_full, corrupt (the database cannot be read, or the copy is not good).
Result<copies::CopyReport> make_copy(const std::filesystem::path& data, const std::filesystem::path& file, Instant now);

// Whether a copy is good: its seal, the hashes of its files, the database's integrity, and the logbook's chain to the
// head that the copy names. It is unpacked beside itself, or where that may not be written in the folder for temporary
// files. Refuses: not_found, bad_input (no copy), unsupported (of a newer version), corrupt, disk_full.
Result<copies::CopyReport> check_copy(const std::filesystem::path& file);

// Restores a copy into a folder that is new or empty: all of it, checked, or nothing. Refuses besides what check_copy
// refuses: conflict (something is in the folder), not_found (the folder above it is missing).
Result<copies::CopyReport> restore_copy(const std::filesystem::path& file, const std::filesystem::path& data);

}  // namespace hw::storage
