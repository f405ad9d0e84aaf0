#pragma once
// What follows from entries and from observations, made again from them.

#include <filesystem>

#include "libs/values/instant.h"
#include "src/service/rebuild_report.h"

namespace hw::storage {

// Makes again the nine tables that follow from the entries, and the counters' days that are over and their totals from
// the observations, and holds them against what is kept. Where they differ, what was made again takes the place of what
// was kept, all of it in one transaction; where they do not, nothing is written. Refuses: find_store's, in_use (a
// server has the folder), unsupported (tables of another version), corrupt (the logbook itself is not as it was
// written, or observations do not read); nothing was changed then.
Result<service::RebuildReport> rebuild(const std::filesystem::path& data, Instant now);

}  // namespace hw::storage
