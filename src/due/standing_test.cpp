#include "src/due/standing.h"

#include <algorithm>

#include <gtest/gtest.h>

#include "src/due/life_test.h"

namespace hw::due {
namespace {

constexpr WeekdayShares office_days = {1.4, 1.4, 1.4, 1.4, 1.4, 0, 0};

StandingPast spells_of(std::string_view picture) { return find_spells(*arrange(history_of(picture)), office_days); }

double mean_fraction(const StandingBelief& belief, double shares) {
  double mean = 0, chance = 0;
  for (const ActivePart& part : active_parts(belief, shares)) {
    mean += part.chance * part.fraction;
    chance += part.chance;
  }
  EXPECT_NEAR(chance, 1, 1e-9);
  return mean;
}

TEST(Standing, AWeekendIsNoSpell) {
  const auto found = spells_of(times(10, "8888800"));
  EXPECT_EQ(found.belief.spells_seen, 0);
  EXPECT_EQ(found.belief.stands_now, 0);
  EXPECT_EQ(std::count(found.stands.begin(), found.stands.end(), 1), 0);
}

TEST(Standing, ASpellIsFoundWithItsWeekend) {
  const auto found = spells_of(
      "8888800"
      "8800000"
      "0008800"
      "8888800");
  EXPECT_EQ(found.belief.spells_seen, 1);
  EXPECT_EQ(std::count(found.stands.begin(), found.stands.end(), 1), 8);
}

TEST(Standing, TwoDaysWithoutUseAreNoSpellYetButMayBecomeOne) {
  const auto found = spells_of(times(3,
                                     "8800088"
                                     "8888800") +
                               "8880000");
  EXPECT_EQ(found.belief.spells_seen, 3);
  EXPECT_GT(found.belief.stands_now, 0.5);
  EXPECT_LT(found.belief.stands_now, 1);
}

TEST(Standing, UnknownDaysNeitherBeginNorEndASpell) {
  EXPECT_EQ(spells_of("88888008.....88888800").belief.spells_seen, 0);
  EXPECT_EQ(spells_of("8888800000..0000088888").belief.spells_seen, 1);
}

TEST(Standing, OverTheYearsTheActiveShareIsThatOfTheHistory) {
  const auto found = spells_of(times(15,
                                     "8888800"
                                     "0000000"
                                     "0000000"));
  EXPECT_NEAR(mean_fraction(found.belief, 2000), 1.0 / 3, 0.06);
}

TEST(Standing, TheLongerAMachineStandsTheLaterItRunsAgain) {
  const std::string before = times(10,
                                   "8888800"
                                   "0000000");
  const auto shortly = spells_of(before +
                                 "8888800"
                                 "0000000")
                           .belief;
  const auto long_since = spells_of(before + "8888800" + times(12, "0000000")).belief;
  EXPECT_GT(mean_fraction(shortly, 30), mean_fraction(long_since, 30));
}

TEST(Standing, AMachineThatNeverStoodIsNearlyAlwaysActive) {
  EXPECT_GT(mean_fraction(spells_of(times(50, "8888800")).belief, 100), 0.99);
}

}  // namespace
}  // namespace hw::due
