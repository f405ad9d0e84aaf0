#pragma once
// One observation as a reader hands it on: which item of which machine, when, how much.

#include <cstdint>
#include <limits>

#include "src/counters/observation.h"

namespace hw::feeds {

struct Arrival {
  Instant at;
  std::uint64_t sequence = 0;  // the agent's number; 0 where there is none (SHDR)
  double value = counters::unknown_value;
  std::uint32_t machine = 0;  // index into the models
  std::uint32_t item = 0;     // index into MachineModel::items
  bool reset = false;         // resetTriggered, or value:REASON in SHDR

  counters::Observation observation() const { return {at, item, value}; }
};

// The first and the last time that was seen of a machine, on any of its data items; first > last: none was.
struct SeenTimes {
  Instant first{std::numeric_limits<std::int64_t>::max()};
  Instant last{std::numeric_limits<std::int64_t>::min()};

  void add(Instant at) {
    if (at < first) first = at;
    if (at > last) last = at;
  }
  void add(const SeenTimes& more) {
    if (more.first < first) first = more.first;
    if (more.last > last) last = more.last;
  }
  bool is_empty() const { return first > last; }
};

}  // namespace hw::feeds
