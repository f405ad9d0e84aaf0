#pragma once
// How the floor's time, the stamps on its values and the real clock hang together.
//
//   stamp = min(real, begins + (real - opened_at) * speed)        never in the future
//   floor = stamp + floor_ahead
//
// Natural speed from now on: begins = opened_at = now. Speed 60 from yesterday: a day passes in 24 minutes, then the
// playing has caught up with now and goes on at natural speed.
//
// floor_ahead moves the floor's calendar against the stamps, so that the present lies in a working shift whatever the
// hour; stamps stay real. Weekends and nights of the history move by the same hours, therefore the smallest shift is
// taken.

#include <algorithm>
#include <cstdint>
#include <functional>
#include <span>

#include "src/simulate/floor.h"

namespace hw::simulate {

struct Pace {
  Instant opened_at;  // real time at which the playing begins
  Instant begins;     // the stamp at that moment; not after opened_at
  std::int64_t speed = 1;
  Duration floor_ahead{};

  Instant stamp_at(Instant real) const {
    const std::int64_t elapsed_ns = std::max<std::int64_t>(0, (real - opened_at).ns);
    const std::int64_t left_ns = (real - begins).ns;
    // Compared by division, so that no speed can overflow.
    if (elapsed_ns > left_ns / speed) return std::max(begins, real);
    return begins + Duration{elapsed_ns * speed};
  }
  Instant floor_of(Instant stamp) const { return stamp + floor_ahead; }
};

// The smallest shift that puts `now` into the middle of an early shift (10:45 local) of a day on which people work.
// Zero where they are at full work anyway: since half an hour, and for an hour more without a break.
Duration ahead_for_full_work(const FloorPlan& plan, Instant now);

// What one machine's feed delivered over the stamps [from, to), for counting months before a program's first start:
// the values that stand at `from`, then all that arrives, in pieces. Stamps are the floor's less floor_ahead.
void tell_history(const Floor& floor, std::size_t machine, Instant from, Instant to, Duration floor_ahead,
                  Detail detail, const std::function<void(std::span<const counters::Observation>)>& out);

}  // namespace hw::simulate
