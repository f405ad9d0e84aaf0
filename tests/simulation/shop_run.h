#pragma once
// Machines, messages and restarts in order of time, on one server.

#include <functional>

#include "tests/simulation/digest.h"
#include "tests/simulation/post.h"

namespace hw::simulation {

struct RunOptions {
  int restarts = 0;
  // What the post does to a message on its way; without it each arrives as it is.
  std::function<std::vector<Act>(const Act&)> tamper = {};
};

// The digest as of the plan's end.
Digest run_shop(const DayPlan& plan, const std::vector<Message>& messages, const RunOptions& options = {});

}  // namespace hw::simulation
