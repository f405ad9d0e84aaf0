#pragma once
// One observation as a reader hands it on: which item of which machine, when, how much.

#include <cstdint>

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

}  // namespace hw::feeds
