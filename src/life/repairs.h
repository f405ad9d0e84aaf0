#pragma once
// The failures of one machine, each repaired at once (minimal repair: it runs on as good, or bad, as before). Ages are
// running time from when it began to be watched, in any unit.

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "libs/values/result.h"

namespace hw::life {

struct Repairs {
  std::vector<double> ages;     // of the failures, ascending; several at one age are several
  std::optional<double> until;  // watched up to this age; nothing: up to the last failure (failure-truncated)
};

// Errors: bad_input that says which: an age that is not above 0 and finite, one before the last or beyond the end, no
// end and no failure either.
Result<void> check_repairs(const Repairs& repairs);

// Where the watch ended, and how many failures fell inside it: a failure that ended the watch tells by its age only.
double end_of_watch(const Repairs& repairs);
double failures_within(const Repairs& repairs);

}  // namespace hw::life
