#pragma once
// What ten people enter on two days at two machines, and what the machines do meanwhile.

#include "tests/simulation/act.h"

namespace hw::simulation {

inline constexpr std::size_t phones = 10;

struct MachineChange {
  std::string machine;
  Instant at;
  char mark = '.';  // of tests/shop/picture.h
};

struct DayPlan {
  Instant begins_at;
  Instant ends_at;
  std::vector<Act> acts;  // in order of time
  std::vector<MachineChange> changes;
  std::vector<Duration> clocks_off;  // of each phone
};

DayPlan plan_days(std::uint64_t seed);

}  // namespace hw::simulation
