#include "src/kits/demand.h"

#include <cmath>

#include <gtest/gtest.h>

#include "libs/numerics/random.h"
#include "src/kits/poisson.h"
#include "src/kits/times_taken.h"

namespace hw::kits {
namespace {

const LocalDate begin_on = LocalDate::of(2026, 3, 2);

TEST(TimesTaken, AFrequentTaskRepeatsByItsCycle) {
  const ExpectedNeed need{{{begin_on + 3, 0.5}, {begin_on + 5, 1}}, 1, 10};
  TimesTaken times = TimesTaken::of_due(need, begin_on, 40);
  EXPECT_EQ(times.mean(2), 0);
  EXPECT_EQ(times.mean(3), 0.5);
  EXPECT_EQ(times.mean(13), 1.5);
  EXPECT_EQ(times.mean(39), 4);
  times.move_to(13);
  EXPECT_EQ(times.first(), 1U);
  EXPECT_EQ(times.chances()[1], 0.5);
  const TimesTaken scattered = TimesTaken::of_due({need.due, 1, 10, 2}, begin_on, 200);
  EXPECT_NEAR(scattered.mean(199), TimesTaken::of_due(need, begin_on, 200).mean(199), 0.2);
  EXPECT_GT(scattered.variance(150), 0.1);
}

TEST(Demand, IsTheSumOfItsNeedsByHand) {
  Needs needs;
  needs.certain = {{begin_on + 10, 2}, {begin_on - 5, 1}};  // the second should have been taken already: today
  needs.expected = {{{{begin_on + 8, 0.25}, {begin_on + 20, 0.75}}, 3, 0}};
  needs.failures = {{0.01, 1}, {0.02, 1}};
  const Demand demand(needs, begin_on, 60);
  ASSERT_TRUE(demand.is_exact());
  EXPECT_EQ(demand.within(-1, 0), 1);
  EXPECT_NEAR(demand.within(5, 1), std::exp(-0.18), 1e-12);
  EXPECT_NEAR(demand.within(12, 3), 0.75 * std::exp(-0.39), 1e-12);
  EXPECT_NEAR(demand.within(30, 6), 0.25 * poisson_below(0.93, 3) + 0.75 * poisson_below(0.93, 0), 1e-12);
  EXPECT_NEAR(demand.mean(30), 3 + 0.75 * 3 + 0.93, 1e-9);
  EXPECT_EQ(demand.quantile(30, 0.15), 4);  // 3 certain and a failure, but not all
}

// The parts of the needs add up to the whole, in whatever fractions they are taken.
TEST(Demand, FractionsKeepTheirMeanAndAreExactOnTheirGrid) {
  Needs needs;
  needs.certain = {{begin_on + 4, 0.4}};
  needs.expected = {{{{begin_on + 6, 1}}, 2.5, 7}};
  needs.failures = {{0.3, 0.4}};
  const Demand demand(needs, begin_on, 60);
  EXPECT_TRUE(demand.is_exact());
  EXPECT_NEAR(demand.step(), 0.1, 1e-12);
  const auto certain = expected_by_day(needs.certain[0], begin_on, 60);
  const auto expected = expected_by_day(needs.expected[0], begin_on, 60);
  const auto failures = expected_by_day(needs.failures[0], 60);
  for (const std::size_t day : {0U, 5U, 30U, 59U}) {
    EXPECT_NEAR(demand.mean(static_cast<int>(day)), certain[day] + expected[day] + failures[day], 1e-6);
  }
  const auto weeks = by_week(demand, begin_on);
  ASSERT_EQ(weeks.size(), 8U);
  EXPECT_EQ(weeks[0].last_on, begin_on + 6);
  EXPECT_NEAR(weeks[0].mean, 0.4 + 2.5 + 7 * 0.12, 1e-6);
  EXPECT_LE(weeks[5].q5_by, weeks[5].q50_by);
  EXPECT_LE(weeks[5].q50_by, weeks[5].q95_by);
}

TEST(Demand, ThousandsOfPiecesAreSummedOnACoarserGrid) {
  Needs needs;
  needs.failures = {{40, 1}};
  needs.certain = {{begin_on + 50, 777}};
  const Demand demand(needs, begin_on, 250);
  EXPECT_FALSE(demand.is_exact());
  EXPECT_LT(demand.cells(), demand_cells_max);
  EXPECT_NEAR(demand.mean(249), 10777, 0.1);
  EXPECT_NEAR(demand.quantile(249, 0.95), 777 + poisson_level(10000, 0.95), 2 * demand.step());
}

TEST(Demand, ALargeAmountThatIsAsGoodAsImpossibleNeedsNoLargeGrid) {
  Needs needs;
  needs.expected = {{{{begin_on + 5, 1e-12}}, 12345.6789, 3, 0}};
  const Demand rare(needs, begin_on, 40);
  EXPECT_LE(rare.cells(), demand_cells_max);
  EXPECT_NEAR(rare.within(39, 0), 1, 1e-9);
  needs.expected[0].due[0] = {begin_on + 500, 1};
  EXPECT_EQ(Demand(needs, begin_on, 40).within(39, 0), 1) << "not within the days ahead";
}

TEST(Demand, AgreesWithDrawnYears) {
  numerics::Random random(4);
  Needs needs;
  needs.expected = {{{{begin_on + 9, 0.3}, {begin_on + 15, 1}}, 2, 0}, {{{begin_on + 12, 0.6}}, 1, 0}};
  needs.failures = {{0.05, 1}};
  const Demand demand(needs, begin_on, 30);
  int met = 0;
  constexpr int drawn = 20000;
  for (int n = 0; n < drawn; ++n) {
    double taken = random.chance(0.3) ? 2 : 0;
    taken += random.chance(0.6) ? 1 : 0;
    for (int day = 0; day <= 12; ++day) taken += random.chance(0.05) ? 1 : 0;
    met += taken <= 2 ? 1 : 0;
  }
  EXPECT_NEAR(demand.within(12, 2), double(met) / drawn, 0.02);
}

TEST(Demand, Property_DoesNotFallWithTheAmountNorRiseWithTheDay) {
  numerics::Random random(9);
  for (int n = 0; n < 20; ++n) {
    Needs needs;
    for (int k = random.whole_between(0, 3); k > 0; --k) {
      needs.certain.push_back({begin_on + random.whole_between(-3, 50), random.whole_between(1, 20) / 4.0});
      needs.expected.push_back({{{begin_on + random.whole_between(0, 60), random.uniform()}},
                                random.whole_between(1, 5) / 2.0,
                                random.between(5, 40),
                                random.between(0, 5)});
    }
    needs.failures.push_back({random.between(0, 0.2), 1});
    const Demand demand(needs, begin_on, 80);
    for (int day = 1; day < 80; ++day) {
      for (double amount = 0; amount < 20; amount += 0.5) {
        EXPECT_LE(demand.within(day, amount), demand.within(day - 1, amount) + 1e-12);
        EXPECT_LE(demand.within(day, amount), demand.within(day, amount + 0.5));
      }
    }
  }
}

TEST(Demand, PartsOfAKitShareItsChance) {
  EXPECT_NEAR(std::pow(each_of_kit(0.95, 6), 6), 0.95, 1e-12);
  EXPECT_EQ(each_of_kit(0.9, 1), 0.9);
}

}  // namespace
}  // namespace hw::kits
