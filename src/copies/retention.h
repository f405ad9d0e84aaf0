#pragma once
// Which copies are kept.

#include <vector>

#include "libs/values/zone.h"

namespace hw::copies {

// How many of each are kept: the last copy of each of so many latest days, weeks (from Monday) and months that have
// one.
struct Retention {
  int daily = 14;
  int weekly = 8;
  int monthly = 24;
};

// Those of the copies that nobody wants any more. The newest is never among them, nor one of the future: then a clock
// was wrong, and which one cannot be known.
std::vector<Instant> unwanted(std::vector<Instant> made_at, const Retention& retention, const Zone& zone, Instant now);

}  // namespace hw::copies
