#pragma once
// Histories of use as tables. Two forms are told apart by their columns:
//   date, then one or more columns of use per day: each is a counter; an empty cell is an unknown day
//   counter, read_at, value (or value_seconds): what counters showed when they were read. The rise between two readings
//     is spread evenly over the time between them and cut at the zone's midnights; a day that is not covered to its
//     full length is unknown. Where a counter falls, the time up to the next reading is unknown.

#include <string>
#include <vector>

#include "libs/values/result.h"
#include "libs/values/zone.h"
#include "src/due/daily_use.h"

namespace hw::terminal {

struct NamedHistory {
  std::string counter;
  due::UseHistory history;  // its start is the day after the last one
};

// Errors, with file, line and column: what is no date, instant or number; negative use; a day or counter out of place.
Result<std::vector<NamedHistory>> read_history_file(const std::string& path, const Zone& zone);

}  // namespace hw::terminal
