#pragma once
// Failures of several machines that were watched, as a table: machine, age, end [, entry]
//
// One row for each failure, at its age; a machine without failures has a row with an empty age. Each machine's `end`,
// up to which it was watched, stands on one of its rows at least, its `entry`, after which, where it is not 0; on other
// rows they may be empty, or the same.

#include <string>
#include <vector>

#include "libs/values/result.h"
#include "src/life/mean_cumulative.h"

namespace hw::terminal {

// In the order of the table. Errors: what keeps it from being such a table, with file, line and column.
Result<std::vector<life::WatchedMachine>> read_watched_file(const std::string& path);

}  // namespace hw::terminal
