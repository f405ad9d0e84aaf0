#include "src/month/time_spans.h"

#include <random>

#include <gtest/gtest.h>

namespace hw::month {
namespace {

TimeSpan span(int begin_h, int end_h) {
  return {Instant{} + Duration::hours(begin_h), Instant{} + Duration::hours(end_h)};
}

TEST(TimeSpans, ThatOverlapOrTouchBecomeOne) {
  EXPECT_EQ(united({span(5, 7), span(1, 3), span(2, 4), span(4, 5), span(9, 9)}), (TimeSpans{span(1, 7)}));
  EXPECT_EQ(within({span(1, 3), span(5, 9)}, span(2, 6)), (TimeSpans{span(2, 3), span(5, 6)}));
  EXPECT_EQ(without({span(0, 10)}, {span(2, 3), span(3, 4), span(9, 12)}), (TimeSpans{span(0, 2), span(4, 9)}));
}

TEST(TimeSpans, Property_NoHourIsLostOrCountedTwice) {
  std::mt19937_64 random(11);
  const auto draw = [&](int most) { return std::uniform_int_distribution<int>(0, most)(random); };
  for (int round = 0; round < 300; ++round) {
    TimeSpans a, b;
    for (int i = draw(6); i > 0; --i) a.push_back(span(draw(50), draw(50)));
    for (int i = draw(6); i > 0; --i) b.push_back(span(draw(50), draw(50)));
    TimeSpans both = a;
    both.insert(both.end(), b.begin(), b.end());
    const double all_h = hours_of(united(both));
    ASSERT_DOUBLE_EQ(hours_of(united(a)), hours_of(overlap(a, b)) + hours_of(without(a, b)));
    ASSERT_DOUBLE_EQ(all_h, hours_of(united(a)) + hours_of(without(b, a)));
    ASSERT_DOUBLE_EQ(hours_of(within(both, span(10, 40))) + hours_of(without(both, {span(10, 40)})), all_h);
  }
}

}  // namespace
}  // namespace hw::month
