#include "src/rehearsal/spread.h"

#include <cmath>
#include <vector>

#include <gtest/gtest.h>

namespace hw::rehearsal {
namespace {

TEST(Spread, MeanErrorAndQuantilesOfTwentyOneValues) {
  std::vector<double> values;
  for (int n = 20; n >= 0; --n) values.push_back(n);
  const Spread spread = spread_of(values);
  EXPECT_DOUBLE_EQ(spread.mean, 10);
  EXPECT_DOUBLE_EQ(spread.se, std::sqrt(38.5 / 21));  // the variance of 0 to 20 is 20 * 21 * 22 / 12 / 20
  EXPECT_DOUBLE_EQ(spread.q5, 1);
  EXPECT_DOUBLE_EQ(spread.q50, 10);
  EXPECT_DOUBLE_EQ(spread.q95, 19);
}

TEST(Spread, ADifferenceIsTakenYearByYear) {
  const std::vector<Outcome> present{{.cost = 10}, {.cost = 20}, {.cost = 30}, {.cost = 40}};
  const std::vector<Outcome> changed{{.cost = 9}, {.cost = 19}, {.cost = 30}, {.cost = 43}};
  const Difference difference = difference_of(present, changed);
  EXPECT_DOUBLE_EQ(difference.spread.cost.mean, 0.25);
  EXPECT_DOUBLE_EQ(difference.cheaper, 0.5);
  EXPECT_DOUBLE_EQ(difference.same_cost, 0.25);
}

}  // namespace
}  // namespace hw::rehearsal
