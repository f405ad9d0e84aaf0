#pragma once
// What reaches a counter from outside: one time-stamped value of one data item of one machine, already a number.

#include <cmath>
#include <cstdint>
#include <limits>

#include "libs/values/instant.h"

namespace hw::counters {

// The value that says "nobody knows": UNAVAILABLE, empty, not finite, no number where one belongs.
inline constexpr double unknown_value = std::numeric_limits<double>::quiet_NaN();
inline bool is_unknown(double value) { return std::isnan(value); }
// Unknown is the same as unknown, which the number for it is not.
inline bool is_same(double a, double b) { return a == b || (is_unknown(a) && is_unknown(b)); }

// Words are numbers here: Execution is 1 when active and 0 or less for every other word, PowerState 1 for ON and 0 for
// OFF, Availability 1 for AVAILABLE. Samples are in the item's `units`. A list of observations in order of arrival is
// what every feed delivers; putting them in order of time is the counters' work, since only they know the rule for two
// clocks.
struct Observation {
  Instant at;
  std::uint32_t item = 0;  // index into MachineModel::items
  double value = unknown_value;
};

}  // namespace hw::counters
