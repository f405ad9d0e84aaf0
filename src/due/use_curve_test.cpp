#include "src/due/use_curve.h"

#include <gtest/gtest.h>

namespace hw::due {
namespace {

// One share a day; with chance p the use of a day is 2 - p.
UseCurve plain_curve() {
  std::vector<double> shares(horizon_days);
  for (std::size_t n = 0; n < shares.size(); ++n) shares[n] = static_cast<double>(n + 1);
  std::vector<UseByChance> used;
  const std::vector<int> knots = {1, 2, 10, 100, horizon_days};
  for (const int knot : knots) {
    UseByChance row{};
    for (std::size_t n = 0; n < chances.size(); ++n) row[n] = knot * (2 - chances[n]);
    used.push_back(row);
  }
  return UseCurve(shares, knots, used);
}

TEST(UseCurve, TheDayIsTheFirstByWhoseEndTheUseIsReached) {
  const UseCurve curve = plain_curve();
  EXPECT_EQ(curve.day_of(7, 1.5), 0);  // p = 0.5: 1.5 a day
  EXPECT_EQ(curve.day_of(7, 1.51), 1);
  EXPECT_EQ(curve.day_of(7, 30), 19);
  EXPECT_EQ(curve.day_of(7, 30.1), 20);
  EXPECT_EQ(curve.day_of(7, 1.5 * horizon_days + 1), std::nullopt);
}

TEST(UseCurve, ChanceAndDayAnswerEachOther) {
  const UseCurve curve = plain_curve();
  for (std::size_t n = 1; n + 1 < chances.size(); ++n) {
    const int day = *curve.day_of(n, 50);
    EXPECT_GE(curve.chance_by(day, 50), chances[n] - 1e-9);
    EXPECT_LT(curve.chance_by(day - 1, 50), chances[n]);
  }
  EXPECT_EQ(curve.chance_by(0, 50), 0);
  EXPECT_EQ(curve.chance_by(horizon_days - 1, 50), 1);
}

}  // namespace
}  // namespace hw::due
