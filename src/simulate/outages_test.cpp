#include "src/simulate/outages.h"

#include <gtest/gtest.h>

namespace hw::simulate {
namespace {

constexpr std::int64_t day_ms = 86'400'000;

TEST(Outages, AreTheSameInWhateverOrderTheyAreAsked) {
  Outages forward(feed_losses, 5, 0);
  Outages backward(feed_losses, 5, 0);
  (void)backward.between(99 * day_ms, 100 * day_ms);
  for (int day = 0; day < 100; ++day) {
    const auto a = forward.between(day * day_ms, (day + 1) * day_ms);
    const auto b = backward.between(day * day_ms, (day + 1) * day_ms);
    ASSERT_EQ(a.size(), b.size());
    for (std::size_t i = 0; i < a.size(); ++i) EXPECT_EQ(a[i].begin_ms, b[i].begin_ms);
  }
}

TEST(Outages, FollowOneAnotherAndOverlapTheSpanAskedFor) {
  Outages outages(breakdowns, 9, 0);
  std::int64_t last_end = 0;
  const auto all = outages.between(0, 4000 * day_ms);
  EXPECT_GT(all.size(), 50U);  // about one in fifty days
  EXPECT_LT(all.size(), 110U);
  for (const Span& span : all) {
    EXPECT_GT(span.begin_ms, last_end);
    EXPECT_GE(span.end_ms - span.begin_ms, breakdowns.least_s * 1000);
    last_end = span.end_ms;
  }
  const Span& one = all[3];
  EXPECT_EQ(outages.between(one.begin_ms + 1, one.begin_ms + 2).size(), 1U);
  EXPECT_EQ(outages.between(one.end_ms, one.end_ms + 1).size(), 0U);
}

}  // namespace
}  // namespace hw::simulate
