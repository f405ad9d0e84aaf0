#include "src/counters/fill.h"

#include <gtest/gtest.h>

#include "src/counters/scene_test.h"

namespace hw::counters {
namespace {

Fill::Moment moment(double now_s, Truth state, std::optional<double> seconds, bool is_heard, double counted_s = 0) {
  return {at_s(now_s), state, ns_of_s(counted_s), seconds, is_heard};
}

TEST(Fill, TheRiseAcrossTheGapIsFilled) {
  Fill fill(2, 7);
  EXPECT_FALSE(fill.settle(moment(0, Truth::yes, 500, true)));
  EXPECT_FALSE(fill.settle(moment(10, Truth::unknown, 500, false)));
  EXPECT_EQ(fill.settle(moment(100, Truth::no, 530, true)), ns_of_s(30));
}

TEST(Fill, AGapBeforeWhichTheControlsCounterWasNeverKnownStaysUnknown) {
  Fill fill(2, 7);
  EXPECT_FALSE(fill.settle(moment(10, Truth::unknown, {}, false)));
  EXPECT_EQ(fill.settle(moment(100, Truth::no, 530, true)), 0);
}

// The counter tells nothing between two gaps: the rise over both belongs to both.
TEST(Fill, GapsWithoutAWordBetweenAreOne) {
  Fill fill(2, 7);
  EXPECT_FALSE(fill.settle(moment(0, Truth::unknown, 500, false)));
  EXPECT_FALSE(fill.settle(moment(10, Truth::no, 500, false)));
  EXPECT_FALSE(fill.settle(moment(20, Truth::unknown, 500, false)));
  EXPECT_EQ(fill.settle(moment(30, Truth::no, 515, true)), ns_of_s(15));
  std::int64_t today_ns = 0;
  EXPECT_TRUE(fill.spread(ns_of_s(15), today_ns).empty());
  EXPECT_EQ(today_ns, ns_of_s(15));
}

TEST(Fill, EveryNanosecondGoesToOneDay) {
  Fill fill(2, 7);
  EXPECT_FALSE(fill.settle(moment(0, Truth::unknown, 0, false)));
  fill.end_day(at_s(1), {LocalDate{0}, 2, {}});
  fill.end_day(at_s(3), {LocalDate{1}, 2, {}});
  const auto filled = fill.settle(moment(7, Truth::no, 1.000000001, true));
  ASSERT_EQ(filled, 1'000'000'001);
  std::int64_t today_ns = 0;
  const std::vector<DayTally> rows = fill.spread(*filled, today_ns);
  ASSERT_EQ(rows.size(), 2U);
  EXPECT_EQ(rows[0].tally.filled_ns, 142'857'143);
  EXPECT_EQ(rows[1].tally.filled_ns, 285'714'286);
  EXPECT_EQ(rows[0].tally.filled_ns + rows[1].tally.filled_ns + today_ns, *filled);
}

}  // namespace
}  // namespace hw::counters
