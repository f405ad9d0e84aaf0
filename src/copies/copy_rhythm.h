#pragma once
// When a nightly copy is due.

#include <optional>

#include "libs/values/zone.h"

namespace hw::copies {

// The hour of the plant's clock at which copies are made, 0 to 23.
struct CopyHour {
  int hour = 2;
};

// What there is, and what was tried.
struct CopyTries {
  std::optional<Instant> good_at;   // the newest good copy's moment
  std::optional<Instant> tried_at;  // of the last that failed since
};

// Whether the hour has come round since the newest good copy was made: at once where there is none, and where the
// computer was off at the hour. After one that failed not within the hour.
bool is_copy_due(const CopyTries& tries, CopyHour at, const Zone& zone, Instant now);

}  // namespace hw::copies
