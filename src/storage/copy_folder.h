#pragma once
// The folder in which nightly copies are kept: which good one is the newest, and a new one made and old ones removed.

#include <filesystem>
#include <optional>

#include "src/copies/copy_state.h"
#include "src/copies/retention.h"

namespace hw::storage {

struct CopyFolder {
  std::filesystem::path data;    // the shop's
  std::filesystem::path copies;  // has to be there: a disk that is not mounted is not written beside
  copies::Retention retention;
  Zone zone = Zone::utc();
};

// The newest copy whose head reads and whose logbook was unbroken; nothing where there is none. Refuses (not_found) a
// folder that is not there.
Result<std::optional<copies::GoodCopy>> newest_good(const CopyFolder& folder);

// Makes a copy, then removes those that retention no longer wants, and what a copy that broke off left. Never removes
// the newest good one or a file that is not a nightly copy. Refuses what make_copy refuses, and (corrupt) a logbook
// that is not as it was written: the copy is there then, and no older one was removed.
Result<copies::GoodCopy> keep_nightly(const CopyFolder& folder, Instant now);

}  // namespace hw::storage
