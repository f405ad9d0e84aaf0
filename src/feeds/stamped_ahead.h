#pragma once
// What a machine's clock says that is ahead of ours.

#include <string>

#include "src/feeds/note.h"

namespace hw::feeds {

// A machine's clock may be ahead of ours by so much; what is stamped later still is taken as of now.
inline constexpr Duration stamped_ahead_max = Duration::seconds(900);

// The stamp, or now where it is beyond that, which is noted of the machine.
inline Instant not_too_far_ahead(Instant at, Instant now, Notes& notes, const std::string& machine) {
  if (at <= now + stamped_ahead_max) return at;
  notes.add(machine, "observations are stamped more than 15 min ahead of the clock here: taken as of their arrival");
  return now;
}

}  // namespace hw::feeds
