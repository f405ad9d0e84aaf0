#pragma once
// What one stop would cost on a day and in a shift, and what stands against it: for dragging a stop.
//
// The figures are those of src/plan/estimate_stop.h for this stop alone, on the instance of its machine; the chance is
// that of the whole distribution. Pure; below a millisecond.

#include <string>
#include <vector>

#include "libs/values/sentence.h"
#include "src/plan/estimate_stop.h"
#include "src/proposal/stop_instance.h"

namespace hw::proposal {

inline constexpr int estimate_days_max = 366;

struct StopTry {
  std::string machine;
  LocalDate on;  // not before today, at most `estimate_days_max` ahead
  std::string shift;
  std::vector<std::string> tasks;   // of the machine
  std::optional<std::string> stop;  // the agreed one that is being moved
};

struct StopEstimate {
  plan::StopEstimate figures;          // with the chances of the whole distributions
  std::vector<catalogue::Part> parts;  // the same part summed over the tasks
  std::vector<Sentence> troubles;
  std::vector<std::string> visited_too;  // machines for which the outside service comes then anyway, by their keys
};

// `shop` has the machine at least. Errors: not_found (no such machine), bad_input naming the field: a day in the past
// or too far ahead, a shift that the plant does not have, no task, a task twice or one that the machine does not have.
Result<StopEstimate> estimate_stop(const ShopAhead& shop, const StopTry& wanted);

}  // namespace hw::proposal
