#pragma once
// When a reading makes a task due: once a value that was read since the task was last done is beyond the limit, else
// when such values will meet it (due::reading_due), where they have a trend toward it, on whichever side the limit is
// set.

#include <optional>

#include "src/due/reading_trend.h"
#include "src/service/known_readings.h"

namespace hw::service {

struct ReadingDue {
  std::optional<TimedValue> last = {};      // since then
  std::optional<LocalDate> beyond_on = {};  // the first day with a value beyond
  double limit_at = 0;                      // that one, or the nearest to the last value
  double share = 0;                         // of the way from the first value to the limit, 0 to 1
  int days_read = 0;                        // since then
  due::DueDistribution due = {};            // empty: never, or too few values
  std::optional<Error> refused = {};        // why there is no forecast
};

// `values` in order of time; `since` is when the task was last done. A trend leads to one side at most.
ReadingDue reading_due_since(const std::vector<TimedValue>& values, const Zone& zone, Instant since,
                             const std::vector<due::ReadingLimit>& limits);

// Those of its limits that are of this kind.
std::vector<due::ReadingLimit> limits_of(const catalogue::TaskReading& reading, catalogue::LimitKind kind);

}  // namespace hw::service
