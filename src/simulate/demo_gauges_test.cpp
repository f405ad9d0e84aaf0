#include "src/simulate/demo_gauges.h"

#include <gtest/gtest.h>

namespace hw::simulate {
namespace {

const catalogue::TaskReading air{"supply air", "bar", {5.5, std::nullopt}, {5, std::nullopt}};

TEST(DemoGauges, WanderWithinTheirLimits) {
  DemoGauges gauges(Dice(3), false);
  double least = 100, most = 0;
  for (int i = 0; i < 200; ++i) {
    const double value = gauges.next("air", air, i / 200.0);
    least = std::min(least, value);
    most = std::max(most, value);
  }
  EXPECT_GT(least, 5.5);
  EXPECT_LT(most, 6.6);
  EXPECT_LT(least, most);
}

TEST(DemoGauges, PressuresThatFallComeHalfOfTheWayToTheirLimit) {
  DemoGauges gauges(Dice(3), true);
  const double first = gauges.next("air", air, 0);
  double last = first;
  for (int i = 1; i <= 40; ++i) last = gauges.next("air", air, i / 40.0);
  EXPECT_GT(first, 5.9);
  EXPECT_GE(last, 5.6);
  EXPECT_LE(last, 5.9);
}

}  // namespace
}  // namespace hw::simulate
