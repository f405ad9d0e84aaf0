#pragma once
// When people work: the floor's days (04:00 to 04:00 local), its two shifts with their breaks, and the days without.

#include <cstdint>
#include <vector>

#include "src/simulate/floor.h"

namespace hw::simulate {

// The floor's day that holds the moment.
LocalDate floor_day_of(const Zone& zone, Instant at);
Instant begin_of_floor_day(const Zone& zone, LocalDate date);

// Monday to Friday and not closed.
bool is_working_day(const FloorPlan& plan, LocalDate date);

struct ManSpan {
  std::int32_t begin_ms = 0;  // since the floor day's begin
  std::int32_t end_ms = 0;
};

// When people stand at the machines of that many shifts on a working day: 06:00 to 14:00 and 14:00 to 22:00, with half
// an hour of break in each.
std::vector<ManSpan> manned_spans(const Zone& zone, LocalDate date, int shifts);
// Saturday's extra shift, 06:00 to 12:00.
std::vector<ManSpan> overtime_spans(const Zone& zone, LocalDate date);

}  // namespace hw::simulate
