#include "src/condition/chart_constants.h"

#include <cmath>

#include <gtest/gtest.h>

namespace hw::condition {
namespace {

// In closed form: d2 = 2 / sqrt(pi) and 3 / sqrt(pi), d3^2 = 2 - 4 / pi, c4 = sqrt(2 / pi).
TEST(ChartConstants, AgreeWithTheClosedFormsForTwoAndThree) {
  const auto two = chart_constants(2), three = chart_constants(3);
  ASSERT_TRUE(two && three);
  EXPECT_NEAR(two->d2, 2 / std::sqrt(M_PI), 1e-12);
  EXPECT_NEAR(three->d2, 3 / std::sqrt(M_PI), 1e-12);
  EXPECT_NEAR(two->d3, std::sqrt(2 - 4 / M_PI), 1e-11);
  EXPECT_NEAR(two->c4, std::sqrt(2 / M_PI), 1e-14);
}

TEST(ChartConstants, Property_RangesGrowWithTheSizeAndLimitsDrawTogether) {
  for (std::size_t n = subgroup_size_min; n < subgroup_size_max; ++n) {
    const auto one = chart_constants(n), next = chart_constants(n + 1);
    ASSERT_TRUE(one && next);
    EXPECT_LT(one->d2, next->d2);
    EXPECT_LT(one->c4, next->c4);
    EXPECT_GT(one->A2, next->A2);
    EXPECT_GT(one->D4, next->D4);
    EXPECT_GE(one->D3, 0);
    EXPECT_GE(one->B3, 0);
  }
}

TEST(ChartConstants, RefuseSizesForWhichARangeSaysNothing) {
  for (const std::size_t size : {0U, 1U, 26U}) EXPECT_FALSE(chart_constants(size)) << size;
}

}  // namespace
}  // namespace hw::condition
