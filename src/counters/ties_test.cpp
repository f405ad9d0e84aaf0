#include "src/counters/ties.h"

#include <gtest/gtest.h>

#include "src/counters/scene_test.h"

namespace hw::counters {
namespace {

double last_of(const std::vector<double>& values) {
  Ties ties(2);
  for (const double value : values) ties.add(seen(1, 0, value));
  EXPECT_EQ(ties.settled().size(), 1U);
  return ties.settled()[0].value;
}

TEST(Ties, TheLastOneThatIsNoRepeatHolds) {
  EXPECT_EQ(last_of({1, 2, 3}), 3);
  EXPECT_EQ(last_of({1, 2, 1}), 2);
  EXPECT_EQ(last_of({1, 2, 3, 2, 1}), 3);
  EXPECT_EQ(last_of({0, 5, -0.0}), 5);
  EXPECT_EQ(last_of({gone, 5, std::nan("1")}), 5) << "what is unknown is one value, whatever its bits";
}

TEST(Ties, EachMomentBeginsAnew) {
  Ties ties(1);
  for (const double value : {1.0, 2.0}) ties.add(seen(1, 0, value));
  ties.clear();
  ties.add(seen(2, 0, 1));
  EXPECT_EQ(ties.settled()[0].value, 1);
}

TEST(Ties, AHundredThousandValuesAtOneMomentAreNoTrouble) {
  Ties ties(1);
  for (int n = 0; n < 100'000; ++n) ties.add(seen(1, 0, n));
  for (int n = 0; n < 100'000; ++n) ties.add(seen(1, 0, n));
  EXPECT_EQ(ties.settled()[0].value, 99'999);
}

}  // namespace
}  // namespace hw::counters
