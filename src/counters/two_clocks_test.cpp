#include "src/counters/two_clocks.h"

#include <gtest/gtest.h>

#include "src/counters/scene_test.h"

namespace hw::counters {
namespace {

Instant passed(TwoClocks& clocks, Observation arrival) {
  EXPECT_TRUE(clocks.pass(arrival));
  return arrival.at;
}

TEST(TwoClocks, TheLaterOfTheLatestAndTheLastArrivedCounts) {
  TwoClocks clocks(2);
  passed(clocks, seen(50, 0, 1));
  passed(clocks, seen(48, 0, 2));
  EXPECT_EQ(passed(clocks, seen(47, 0, gone)), at_s(50));
}

TEST(TwoClocks, AValueAstrayInTheFutureDoesNotSwitchTheRuleOff) {
  TwoClocks clocks(1);
  passed(clocks, seen(1e6, 0, 1));
  passed(clocks, seen(48, 0, 2));
  EXPECT_EQ(passed(clocks, seen(47, 0, gone)), at_s(48));
}

TEST(TwoClocks, WithoutALaterValueOfTheItemTheTimeStays) {
  TwoClocks clocks(2);
  passed(clocks, seen(50, 0, 1));
  EXPECT_EQ(passed(clocks, seen(50, 0, gone)), at_s(50));
  EXPECT_EQ(passed(clocks, seen(60, 0, gone)), at_s(60));
  EXPECT_EQ(passed(clocks, seen(40, 1, gone)), at_s(40));
}

TEST(TwoClocks, ARepeatedUnavailableIsDroppedUntilItIsForgotten) {
  TwoClocks clocks(1);
  passed(clocks, seen(50, 0, gone));
  Observation again = seen(50, 0, gone);
  EXPECT_FALSE(clocks.pass(again));
  clocks.forget_before(at_s(51));
  EXPECT_EQ(clocks.remembered(), 0U);
  EXPECT_TRUE(clocks.pass(again));
}

TEST(TwoClocks, TheEndOfTimeIsNoTrouble) {
  TwoClocks clocks(1);
  EXPECT_EQ(passed(clocks, {Instant{INT64_MAX}, 0, gone}), Instant{INT64_MAX});
  EXPECT_EQ(passed(clocks, {Instant{INT64_MIN}, 0, gone}), Instant{INT64_MIN});
}

}  // namespace
}  // namespace hw::counters
