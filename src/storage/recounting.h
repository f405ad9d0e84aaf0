#pragma once
// Counters made again from the observation log, for rebuild.h.

#include "libs/sql/connection.h"
#include "libs/values/instant.h"
#include "src/service/rebuild_report.h"

namespace hw::storage {

// Of every machine: days that are over and totals, held against what is kept. Where they differ, days and counting
// state are written as they were made, and the checkpoints from the first difference on are dropped, since earlier ones
// serve as well; the caller's transaction keeps all or nothing. The digests are over the days and the totals.
Result<service::RebuiltPart> rebuild_counts(sql::Connection& db, Instant now);

}  // namespace hw::storage
