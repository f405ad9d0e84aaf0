#pragma once
// When a reading will have reached its limit, as a distribution over days: a task that is due by a reading, like one
// that is due by hours.
//
// The readings are taken for a value that drifts and scatters (src/condition/uncertain_passage.h), from the last
// reading on; what drift and scatter are is known no better than the readings tell. By the end of day k after the last
// reading so many days have passed. The chance counts from the last reading: where that is old, part of it lies in the
// past, and it is time for another reading.

#include <span>

#include "src/condition/uncertain_passage.h"
#include "src/due/due_dates.h"

namespace hw::due {

struct DatedReading {
  LocalDate on;
  double value = 0;
};

inline constexpr std::size_t crossing_readings_min = 4;

// `limit` in the readings' unit; readings in any order. A last reading that is on the limit or beyond makes it due on
// its day. Chances below a ten-thousandth and days beyond ten years are left out; beyond 400 days every seventh stands
// for its week. Refuses fewer than four readings, two on one day, and values that are not finite.
Result<DueDistribution> reading_due(std::span<const DatedReading> readings, double limit, condition::LimitSide side);

}  // namespace hw::due
