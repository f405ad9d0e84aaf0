#include "src/feeds/back_off.h"

#include <gtest/gtest.h>

namespace hw::feeds {
namespace {

TEST(BackOff, DoublesUpToItsMaximumAndBeginsAnewAfterASuccess) {
  BackOff back_off(Duration::seconds(1), Duration::seconds(10), 5);
  for (const double usual : {1.0, 2.0, 4.0, 8.0, 10.0, 10.0}) {
    const double wait = back_off.after_failure().as_seconds();
    EXPECT_GE(wait, 0.75 * usual);
    EXPECT_LE(wait, 1.25 * usual);
  }
  back_off.succeeded();
  EXPECT_LE(back_off.after_failure().as_seconds(), 1.25);
}

TEST(BackOff, SurvivesAYearOfFailures) {
  BackOff back_off(Duration::seconds(1), Duration::seconds(60), 5);
  for (int n = 0; n < 600'000; ++n) ASSERT_LE(back_off.after_failure(), Duration::seconds(75));
}

TEST(BackOff, SameSeedSameWaits) {
  BackOff a(Duration::seconds(1), Duration::seconds(60), 5), b(Duration::seconds(1), Duration::seconds(60), 5);
  for (int n = 0; n < 10; ++n) EXPECT_EQ(a.after_failure(), b.after_failure());
}

}  // namespace
}  // namespace hw::feeds
