#pragma once
// Motion from positions, where a machine tells no feed rate: two known positions one after the other, at t0 < t1, that
// differ by more than the dead band mean motion during [max(t0, t1 - 2 s), t1). An unknown position between two ends
// the pair: nobody knows what happened there.
//
// That a motion began is known up to 2 s after it did, so everything else waits as long, in its place.

#include <cstdint>
#include <functional>
#include <optional>
#include <span>
#include <vector>

#include "src/counters/machine_model.h"
#include "src/counters/observation.h"
#include "src/counters/settings.h"

namespace hw::counters {

class MotionFinder {
 public:
  // What takes the moments, in order.
  using Next = std::function<void(Instant, std::span<const Observation>)>;

  explicit MotionFinder(std::span<const Item> items);

  // One moment, settled. Positions become 1 (moves), 0 (is at rest) and unknown; all else passes.
  void settle(Instant at, std::span<const Observation> changes, const Next& next);
  // Hands on everything that waits.
  void drain(const Next& next);
  bool is_empty() const { return first_waiting_ == waiting_.size(); }

 private:
  template <class Archive>
  friend void archive_motion(Archive& archive, MotionFinder& motion);

  struct Position {
    bool is_position = false;
    bool known = false;
    double value = 0;
    Instant at;
  };

  void take_position(Position& before, const Observation& now);
  void put(const Observation& observation);
  void release_before(Instant end, const Next& next);
  void release_moment(const Next& next);
  void drop_handed_on();

  std::vector<Position> positions_;   // by item
  std::vector<Observation> waiting_;  // by time, equals in the order in which they were put
  std::size_t first_waiting_ = 0;     // those before it are handed on
};

}  // namespace hw::counters
