#pragma once
// The numbers that tell one kind of machine's work from another's. All invented, of the order that is common practice.

#include <cstdint>

#include "src/simulate/machine.h"

namespace hw::simulate {

struct Range {
  std::int32_t min = 0;
  std::int32_t max = 0;
};

struct KindNumbers {
  Range tools;                // in one cycle
  Range cut_s;                // with one tool
  Range speed_rpm;            // of the spindle that cuts
  Range cut_feed_um_s;        // along the path
  std::int32_t rapid_um_s;    // along the path
  std::int32_t change_ms;     // from one tool to the next
  Range load_s;               // from the end of a part to the start of the next
  Range set_up_min;           // from one job to the next
  Range parts;                // in one job
  std::int32_t unmanned_min;  // how long it works on when people have left
  std::int32_t shifts;        // a day: 1 (early) or 2
  bool spindle_stays_on;      // between parts, as a grinding wheel does
};

const KindNumbers& numbers_of(Kind kind);

}  // namespace hw::simulate
