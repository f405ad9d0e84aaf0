#pragma once
// Plans what one machine does on one floor day: power, warm-up, set-ups, parts, halts, breaks, breakdowns.

#include <cstdint>
#include <vector>

#include "src/simulate/dice.h"
#include "src/simulate/machine.h"
#include "src/simulate/phase.h"
#include "src/simulate/shop_hours.h"

namespace hw::simulate {

struct DayFrame {
  std::int32_t length_ms = 0;
  std::vector<ManSpan> manned;  // in order; empty: nobody comes
  std::vector<ManSpan> down;    // broken down, cut to the day, in order
};

// The phases of the day in order, the first from 0. The day begins and ends at rest, as the machine's night is.
std::vector<Phase> plan_day(const Machine& machine, const DayFrame& frame, Dice dice);

}  // namespace hw::simulate
