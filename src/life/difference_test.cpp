#include "src/life/difference.h"

#include <algorithm>
#include <cmath>

#include <gtest/gtest.h>

#include "libs/numerics/random.h"
#include "src/life/log_rank.h"
#include "src/life/weibull.h"
#include "src/life/weibull_difference.h"

namespace hw::life {
namespace {

using Groups = std::vector<std::vector<Observed>>;

// Acute myelogenous leukaemia (Miller 1997, Survival Analysis), as R's survival 3.5-3 has it: data set aml. The
// expected figures below are that package's (R 4.2, survdiff, survreg).
const std::vector<Observed> maintained = {{9, 9},   {13, 13}, {13}, {18, 18}, {23, 23}, {28},
                                          {31, 31}, {34, 34}, {45}, {48, 48}, {161}};
const std::vector<Observed> not_maintained = {{5, 5, 2}, {8, 8, 2}, {12, 12}, {16},     {23, 23},
                                              {27, 27},  {30, 30},  {33, 33}, {43, 43}, {45, 45}};

std::vector<Observed> drawn(numerics::Random& random, int count, const Weibull& life, double until) {
  std::vector<Observed> lives;
  for (int n = 0; n < count; ++n) {
    const double age = quantile(life, random.uniform());
    lives.push_back(age < until ? Observed{age, age} : Observed{until});
  }
  return lives;
}

TEST(LogRank, OfLeukaemiaIsThatOfTheReference) {
  const auto test = compare_survival(Groups{maintained, not_maintained});
  ASSERT_TRUE(test) << test.error().message;
  EXPECT_NEAR(test->statistic, 3.3963886989776, 1e-12);
  EXPECT_EQ(test->degrees, 1);
  EXPECT_NEAR(test->p, 0.0653393220405051, 1e-12);
  EXPECT_EQ(test->by, PValueBy::chi_squared);
  EXPECT_EQ(test->groups[0].observed, 7);
  EXPECT_NEAR(test->groups[0].expected, 10.68933599230072, 1e-12);
  EXPECT_NEAR(test->groups[1].expected, 7.31066400769928, 1e-12);
}

// R's coxph(Surv(entry, t, f) ~ group)$score, which without ties is the log-rank test with entries.
TEST(LogRank, WithEntriesIsThatOfTheReference) {
  const std::vector<Observed> one = {{41, 41, 1, 0}, {55, 55, 1, 10}, {38, 38, 1, 20}, {72, never, 1, 5}, {90, 90}};
  const std::vector<Observed> other = {{61, 61, 1, 12}, {83, 83, 1, 30}, {47}, {29, 29, 1, 8}, {66, 66, 1, 25}};
  EXPECT_NEAR(compare_survival(Groups{one, other})->statistic, 0.150669324978639, 1e-12);
}

TEST(WeibullDifference, OfLeukaemiaIsThatOfTheReference) {
  const auto test = compare_weibull(Groups{maintained, {{2, 2}, {9}}, not_maintained});
  ASSERT_TRUE(test) << test.error().message;
  EXPECT_NEAR(test->statistic, 6.66100159619643, 1e-8);
  EXPECT_EQ(test->degrees, 2);
  EXPECT_EQ(test->takes_part, (std::vector<bool>{true, false, true})) << "one failure is too few";
  EXPECT_NEAR(test->correction, 1 + 1.75 * (1.0 / 7 + 1.0 / 11 - 1.0 / 18) / 2, 1e-12);
  EXPECT_NEAR(test->p, std::exp(-test->statistic / test->correction / 2), 1e-12);
}

TEST(WeibullDifference, NeedsTwoGroupsWithFiveFailures) {
  EXPECT_FALSE(compare_weibull(Groups{maintained, {{1, 1}, {2, 2}, {3, 3}, {4, 4}}}));
}

TEST(LogRank, SaysWhatItCannotCompare) {
  EXPECT_FALSE(compare_survival(Groups{{{5}, {6}}, {{7}}})) << "no failure";
  EXPECT_FALSE(compare_survival(Groups{{{0, 5}}, {{7, 7}}})) << "an age that nobody knows";
  EXPECT_FALSE(compare_survival(Groups{{{5, 5}}, {{9, 9, 1, 7}}})) << "never at risk together";
  EXPECT_FALSE(compare_survival(Groups{{{5, 5}, {6, 6}}})) << "one group";
}

TEST(LogRank, AGroupThatWasNeverAtRiskChangesNothing) {
  const auto two = compare_survival(Groups{maintained, not_maintained});
  const auto three = compare_survival(Groups{maintained, {{2}, {3}}, not_maintained});
  EXPECT_NEAR(three->statistic, two->statistic, 1e-12);
  EXPECT_EQ(three->degrees, 1);
  EXPECT_EQ(three->p, two->p);
}

TEST(LogRank, OfFewFailuresIsByDeals) {
  // Of 4 and 4 lives that fail one after the other: 2 of 70 deals are as unlike.
  const auto test = compare_survival(Groups{{{1, 1}, {2, 2}, {3, 3}, {4, 4}}, {{5, 5}, {6, 6}, {7, 7}, {8, 8}}});
  ASSERT_TRUE(test);
  EXPECT_EQ(test->by, PValueBy::permutation);
  EXPECT_NEAR(test->p, 2.0 / 70, 0.01);
}

TEST(Difference, Property_EqualHalvesDoNotDiffer) {
  numerics::Random random(11);
  for (int n = 0; n < 20; ++n) {
    const auto lives = drawn(random, 30, {random.log_between(0.6, 4), random.log_between(1, 1e5)}, never);
    const Difference found = judge_difference(Groups{lives, lives});
    EXPECT_NEAR(found.log_rank->statistic, 0, 1e-9);
    EXPECT_NEAR(found.weibull->statistic, 0, 1e-8);
    EXPECT_EQ(found.verdict, LikenessVerdict::no_difference_seen);
  }
}

TEST(Difference, Property_TheOrderOfGroupsAndTheUnitOfAgesDoNotMatter) {
  numerics::Random random(12);
  for (int n = 0; n < 20; ++n) {
    Groups groups;
    for (int k = 0; k < 4; ++k) {
      const double scale = random.between(80, 160);
      groups.push_back(drawn(random, random.whole_between(4, 25), {2, scale}, 1.2 * scale));
    }
    const auto rank = compare_survival(groups);
    const auto weibull = compare_weibull(groups);
    Groups other(groups.rbegin(), groups.rend());
    for (auto& group : other) {
      std::reverse(group.begin(), group.end());
      for (Observed& life : group) life.lower *= 4, life.upper *= 4;
    }
    const auto rank_then = compare_survival(other);
    ASSERT_EQ(rank.has_value(), rank_then.has_value());
    EXPECT_NEAR(rank->statistic, rank_then->statistic, 1e-9 * (1 + rank->statistic));
    EXPECT_NEAR(rank->p, rank_then->p, rank->by == PValueBy::permutation ? 0.02 : 1e-9);
    EXPECT_EQ(rank->groups.front().observed, rank_then->groups.back().observed);
    const auto weibull_then = compare_weibull(other);
    ASSERT_EQ(weibull.has_value(), weibull_then.has_value());
    if (!weibull) continue;
    EXPECT_NEAR(weibull->statistic, weibull_then->statistic, 1e-6);
  }
}

// The observed sum is the expected one: nothing is lost among the groups.
TEST(LogRank, Property_ExpectedFailuresAddUpToTheObserved) {
  numerics::Random random(13);
  for (int n = 0; n < 20; ++n) {
    const Groups groups{drawn(random, 20, {1, 100}, 150), drawn(random, 7, {2, 60}, 80), drawn(random, 9, {3, 90}, 70)};
    const auto test = compare_survival(groups);
    double observed = 0, expected = 0;
    for (const auto& group : test->groups) observed += group.observed, expected += group.expected;
    EXPECT_NEAR(observed, expected, 1e-9);
  }
}

// The share of p below a level, where nothing differs; 99.9 % of such counts of 600 lie within the band.
TEST(Difference, Property_WhereNothingDiffersPIsEven) {
  numerics::Random random(14);
  constexpr int samples = 600;
  std::vector<double> ranks, fits;
  for (int n = 0; n < samples; ++n) {
    Groups groups;
    for (int k = 0; k < 3; ++k) groups.push_back(drawn(random, 40, {2, 100}, 130));
    ranks.push_back(compare_survival(groups)->p);
    fits.push_back(compare_weibull(groups)->p);
  }
  for (const auto& ps : {ranks, fits}) {
    for (const double level : {0.1, 0.25, 0.5, 0.75}) {
      const auto below = std::count_if(ps.begin(), ps.end(), [&](double p) { return p < level; });
      EXPECT_NEAR(static_cast<double>(below) / samples, level, 3.3 * std::sqrt(level * (1 - level) / samples)) << level;
    }
  }
}

TEST(Difference, GrowsWithWhatDiffers) {
  double rank_before = -1, weibull_before = -1;
  for (const double scale : {100.0, 130.0, 170.0, 240.0}) {
    numerics::Random random(15);
    const auto first = drawn(random, 60, {2, 100}, never);
    const auto second = drawn(random, 60, {2, scale}, never);
    const Difference found = judge_difference(Groups{first, second});
    EXPECT_GT(found.log_rank->statistic, rank_before);
    EXPECT_GT(found.weibull->statistic, weibull_before);
    rank_before = found.log_rank->statistic;
    weibull_before = found.weibull->statistic;
  }
  EXPECT_GT(rank_before, 20);
}

TEST(Difference, ShapesThatDifferAreSeenThoughPartsFailAsOften) {
  numerics::Random random(16);
  const Groups groups{drawn(random, 80, {0.8, 100}, never), drawn(random, 80, {5, 100}, never)};
  const Difference found = judge_difference(groups);
  EXPECT_LT(found.weibull->p, 1e-6);
  EXPECT_EQ(found.verdict, LikenessVerdict::differ);
}

TEST(Difference, WithoutATestItIsUnknown) {
  const Difference found = judge_difference(Groups{{{5}}, {{7}}});
  EXPECT_EQ(found.verdict, LikenessVerdict::unknown);
  EXPECT_FALSE(found.log_rank);
  EXPECT_FALSE(found.weibull);
}

// Lives of which only looks tell have no log-rank test; then the other may speak at 5 %.
TEST(Difference, OfLivesBetweenLooksIsByTheFitAlone) {
  numerics::Random random(17);
  Groups groups;
  for (const double scale : {100.0, 400.0}) {
    groups.push_back(drawn(random, 20, {2, scale}, never));
    for (Observed& life : groups.back()) life.lower *= 0.8;
  }
  const Difference found = judge_difference(groups);
  EXPECT_FALSE(found.log_rank);
  EXPECT_EQ(found.p_needed, false_alarms);
  EXPECT_EQ(found.verdict, LikenessVerdict::differ);
}

}  // namespace
}  // namespace hw::life
