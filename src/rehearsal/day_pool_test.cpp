#include "src/rehearsal/day_pool.h"

#include <algorithm>
#include <cmath>

#include <gtest/gtest.h>

namespace hw::rehearsal {
namespace {

TEST(DayPool, AMeanWithScatterIsDrawnWithThatMeanAndScatter) {
  for (const double scatter : {0.0, 0.1, 0.5, 1.0}) {
    Machine machine;
    machine.counters = {"operating"};
    machine.use = {{{8, 8, 8, 8, 8, 2, 0}, scatter}};
    const DayPool pool = day_pool(machine);
    double sum = 0, squares = 0;
    for (const double used : pool.rows[0]) sum += used, squares += used * used;
    const auto count = static_cast<double>(pool.size(0));
    const double mean = sum / count;
    EXPECT_NEAR(mean, 8, 1e-9);
    EXPECT_NEAR(std::sqrt(std::max(0.0, squares / count - mean * mean)) / mean, scatter, 0.01 * scatter + 1e-6);
    EXPECT_EQ(*std::max_element(pool.rows[6].begin(), pool.rows[6].end()), 0);
  }
}

TEST(DayPool, CountersOfOneDayStayTogether) {
  Machine machine;
  machine.counters = {"operating", "spindle"};
  machine.past = {{1, {8, 5}}, {3, {7, 4}}, {1, {2, 1}}};
  const DayPool pool = day_pool(machine);
  EXPECT_EQ(pool.rows[0], (std::vector<double>{8, 5, 2, 1}));
  EXPECT_EQ(pool.size(2), 1U);
  EXPECT_EQ(busiest_day(machine), (std::vector<double>{8, 5}));
}

}  // namespace
}  // namespace hw::rehearsal
