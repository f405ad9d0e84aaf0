#pragma once
// When each message reaches the server.

#include "tests/simulation/day_plan.h"

namespace hw::simulation {

struct Message {
  std::size_t act = 0;  // its place in the plan
  Instant arrives_at;
};

// Each at once.
std::vector<Message> in_time(const DayPlan& plan);

// As bad Wi-Fi has it: phones are out of reach for hours and then send what has waited, one after the other; some
// messages take a way of their own, none past the finding that it is about; three of ten arrive again, once to three
// times, at any later time.
std::vector<Message> by_bad_wifi(const DayPlan& plan, std::uint64_t seed);

}  // namespace hw::simulation
