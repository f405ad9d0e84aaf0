#pragma once
// hourwright kits simulate: five years of invented stores under the proposed orders and under two usual rules.

#include <cstdint>

#include "src/terminal/command_line.h"

namespace hw::terminal {

struct KitsSimulateCall {
  std::uint64_t seed = 1;
  int years = 5;         // 2 to 50
  int kinds = 4;         // of machines, 1 to 20: four machines and 15 parts each
  double wanted = 0.95;  // for each need
  bool is_json = false;
};
Answer simulate_kits(const KitsSimulateCall& call);

}  // namespace hw::terminal
