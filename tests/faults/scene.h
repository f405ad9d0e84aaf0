#pragma once
// A fixed list of what several machines say: words, speeds, feeds, timers and counts at random, breaks of the feed,
// clocks that disagree, small disorder, and a few observations that come too late. Everything follows from the seed and
// the moment at which it begins.

#include <cstdint>
#include <vector>

#include "src/simulate/source.h"

namespace hw::faults {

struct ScenePlan {
  std::uint64_t seed = 1;
  Instant begin;  // the stamp of the first
  int machines = 4;
  int lead_s = 4;  // at first every item is said once, and then nothing that counts
  int busy_s = 30;
  int tail_s = 4;        // at the end a pause, every item once, a pause, and every item once more, all at `ends_at`
  int per_second = 150;  // arrivals; they are stamped about when they arrive at that pace
  int ahead_ms = 3'000;  // the second machine's clock against the agent's
  bool has_late = true;  // about 1 in 150 is stamped 7 to 9 s before it arrives
};

struct Scene {
  std::vector<simulate::Machine> machines;
  std::vector<simulate::Arrival> arrivals;
  std::size_t opening = 0;  // so many of them say every item for the first time
  Instant ends_at;          // of the last ones, and later than all others
  std::size_t breaks = 0, late = 0, out_of_order = 0;
};

Scene make_scene(const ScenePlan& plan);

}  // namespace hw::faults
