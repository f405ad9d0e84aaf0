#include "src/plan/workers.h"

#include <atomic>
#include <vector>

#include <gtest/gtest.h>

namespace hw::plan {
namespace {

TEST(Workers, EveryThingIsInExactlyOneRun) {
  for (std::size_t parts = 1; parts < 8; ++parts) {
    std::vector<std::atomic<int>> seen(23);
    share_out(parts, [&](std::size_t part) {
      const auto run = run_of(part, parts, seen.size());
      for (std::size_t i = run.begin; i < run.end; ++i) ++seen[i];
    });
    for (const auto& times : seen) EXPECT_EQ(times, 1);
  }
}

}  // namespace
}  // namespace hw::plan
