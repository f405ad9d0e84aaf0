#pragma once
// A shop's record as files that any program reads, and a shop made of them again (docs/operations/export.md).

#include <filesystem>

#include "src/copies/export_report.h"

namespace hw::storage {

// Writes the record of a data folder's shop as of one moment into a new folder, beside a running server too; readable
// by its owner only. All of it, or nothing. Refuses: what find_store refuses, conflict (something is in the folder),
// not_found (the folder above it is missing), disk_full, unsupported (tables of another version).
Result<copies::ExportReport> export_shop(const std::filesystem::path& data, const std::filesystem::path& folder,
                                         Instant now);

// Makes a shop of such a folder in a data folder that is new or empty: all of it, or nothing. Refuses: not_found,
// bad_input (with file, line and field), unsupported (of another version's tables, or of a later form), corrupt (the
// rows are not those that were written), conflict (something is in the folder; rows that contradict each other).
Result<copies::ExportReport> import_shop(const std::filesystem::path& folder, const std::filesystem::path& data);

}  // namespace hw::storage
