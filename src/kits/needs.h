#pragma once
// What will be taken of one part, as it is known today. Quantities in the part's unit (pieces, litres), above 0; they
// may be fractions.

#include <vector>

#include "libs/values/local_date.h"
#include "src/due/due_dates.h"

namespace hw::kits {

// An agreed stop takes it on that day. What was to be taken before today and is still open is taken today.
struct CertainNeed {
  LocalDate on;
  double quantity = 1;
};

// Something that takes it when it falls due: a task, or the failure of one part of known age (chances by day, no
// cycle). What is missing to 1 in the distribution never happens.
struct ExpectedNeed {
  due::DueDistribution due;  // of the first time
  double quantity = 1;
  double cycle_days = 0;     // from one time to the next, 1 or more; 0: once
  double cycle_sd_days = 0;  // by how much a cycle scatters, at least 0; cycles are independent
};

// Failures by chance: times without memory, a Poisson process. Parts that are alike may be put together.
struct FailureNeed {
  double rate_per_day = 0;  // of all places together, at least 0
  double quantity = 1;      // at each failure
};

struct Needs {
  std::vector<CertainNeed> certain;
  std::vector<ExpectedNeed> expected;
  std::vector<FailureNeed> failures;
};

}  // namespace hw::kits
