#pragma once
// One value on its way from a machine to its agent, how it looks in documents, and what it is for counters.

#include <cstdint>
#include <string>

#include "src/counters/observation.h"
#include "src/simulate/machine.h"

namespace hw::simulate {

// One value as the agent gets it. Words are numbers: see print_value.
struct Event {
  Instant arrives_at;  // by the agent's clock: the true time
  Instant at;          // the stamp
  std::uint32_t item = 0;
  double value = counters::unknown_value;  // unknown: UNAVAILABLE
};

// What an agent writes for the item's value: "PROGRAM_STOPPED", "3200", "12.5"; "UNAVAILABLE" where unknown.
std::string print_value(const Machine& machine, std::uint32_t item, double value);
// The same event as counters want it: Execution 1 when active ...
counters::Observation observation_of(const Machine& machine, const Event& event);

}  // namespace hw::simulate
