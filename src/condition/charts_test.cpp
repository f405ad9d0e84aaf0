// Individuals, subgroups, counts, moving averages, cumulative sums, rules and run lengths; the published values are
// checked in tests/condition.

#include <array>
#include <cmath>
#include <limits>

#include <gtest/gtest.h>

#include "libs/numerics/random.h"
#include "src/condition/count_chart.h"
#include "src/condition/cusum_chart.h"
#include "src/condition/ewma_chart.h"
#include "src/condition/individuals_chart.h"
#include "src/condition/run_length.h"
#include "src/condition/subgroup_chart.h"
#include "src/condition/zone_rules.h"

namespace hw::condition {
namespace {

using Values = std::vector<double>;
using Points = std::vector<std::size_t>;

constexpr double nan_value = std::numeric_limits<double>::quiet_NaN();

TEST(IndividualsChart, APointFarOffIsNamedAndItsMovingRangesToo) {
  const auto chart =
      individuals_chart(Values{10, 10.1, 9.9, 10, 10.1, 9.9, 10, 10.1, 9.9, 10, 13, 10}, RangeConstant::exact_d2);
  ASSERT_TRUE(chart);
  EXPECT_EQ(chart->out, Points{11});
  EXPECT_EQ(chart->mr_out, (Points{11, 12}));
}

TEST(IndividualsChart, ValuesThatAreAllAlikeHaveLimitsOnThemAndNoneIsOut) {
  const auto chart = individuals_chart(Values(10, 7.5), RangeConstant::exact_d2);
  ASSERT_TRUE(chart);
  EXPECT_EQ(chart->ucl, 7.5);
  EXPECT_TRUE(chart->out.empty());
}

TEST(IndividualsChart, RefusesOneValueAndWhatIsNoNumber) {
  EXPECT_FALSE(individuals_chart(Values{1}, RangeConstant::exact_d2));
  const auto chart = individuals_chart(Values{1, nan_value, 3}, RangeConstant::exact_d2);
  ASSERT_FALSE(chart);
  EXPECT_EQ(chart.error().message, "x[1] is no finite number, or beyond 1e15 or 1e-30 in size");
}

TEST(SubgroupChart, RefusesRaggedSubgroupsAndNamesTheFirst) {
  const std::vector<Values> ragged = {{1, 2, 3}, {1, 2, 3}, {1, 2}};
  const auto chart = subgroup_chart(ragged);
  ASSERT_FALSE(chart);
  EXPECT_EQ(chart.error().message, "subgroup 3 has 2 values and the first has 3: all need as many");
  EXPECT_FALSE(subgroup_chart(std::vector<Values>{{1, 2}}));
  EXPECT_FALSE(subgroup_chart(std::vector<Values>{{1}, {2}}));
  EXPECT_FALSE(subgroup_chart(std::vector<Values>{{1, 2}, {2, nan_value}}));
}

TEST(CountChart, ACountOnTheLimitIsWithinIt) {
  Values counts(24, 16);
  counts.push_back(16);
  const auto chart = count_chart(counts);
  ASSERT_TRUE(chart);
  EXPECT_EQ(chart->ucl, 28);
  EXPECT_EQ(chart->lcl, 4);
  EXPECT_TRUE(chart->out.empty());
}

TEST(CountChart, RefusesNegativeCountsAndHalves) {
  EXPECT_FALSE(count_chart(Values{3, -1}));
  EXPECT_FALSE(count_chart(Values{3, 2.5}));
  EXPECT_FALSE(count_chart(Values{3}));
}

TEST(EwmaChart, WithTheWholeWeightOnTheNewestItIsTheChartOfSingleValues) {
  const auto chart = ewma_chart(Values{1, -2, 3.5, 0}, {1, 0, 1, 3});
  ASSERT_TRUE(chart);
  EXPECT_EQ(chart->series[2].z, 3.5);
  EXPECT_EQ(chart->ucl, 3);
  EXPECT_EQ(chart->signals_asymptotic, Points{3});
  EXPECT_EQ(chart->signals_time_varying, Points{3});
}

TEST(EwmaChart, Property_TimeVaryingLimitsWidenUpToTheAsymptoticOnes) {
  const auto chart = ewma_chart(Values(200, 0), {0.1, 0, 2, 2.7});
  ASSERT_TRUE(chart);
  for (std::size_t n = 1; n < chart->series.size(); ++n) {
    EXPECT_GE(chart->series[n].ucl_i, chart->series[n - 1].ucl_i);
    EXPECT_LE(chart->series[n].ucl_i, chart->ucl);
  }
  EXPECT_NEAR(chart->series.back().ucl_i, chart->ucl, 1e-9);
}

TEST(EwmaChart, RefusesADesignThatIsNone) {
  for (const EwmaDesign& design :
       {EwmaDesign{0, 0, 1, 3}, EwmaDesign{1.1, 0, 1, 3}, EwmaDesign{.2, 0, 0, 3}, EwmaDesign{.2, 0, 1, 0},
        EwmaDesign{.2, nan_value, 1, 3}, EwmaDesign{nan_value, 0, 1, 3}}) {
    EXPECT_FALSE(ewma_chart(Values{1, 2}, design));
  }
  EXPECT_FALSE(ewma_chart(Values{}, {}));
}

TEST(CusumChart, TellsWhereTheShiftBegan) {
  const auto chart = cusum_chart(Values{0, 0, 0, 0, -2, -2, -2, -2}, {0, 0.5, 4});
  ASSERT_TRUE(chart);
  EXPECT_EQ(chart->first_signal, 7U);
  EXPECT_EQ(chart->shift_began_at, 5U);
  EXPECT_EQ(chart->signals, (Points{7, 8}));
}

TEST(CusumChart, ASumOnTheLimitDoesNotCallYet) {
  const auto chart = cusum_chart(Values{2, 2}, {0, 0, 4});
  ASSERT_TRUE(chart);
  EXPECT_FALSE(chart->first_signal);
}

TEST(CusumChart, Property_MirroredValuesMirrorTheSums) {
  numerics::Random random(7);
  Values x, mirrored;
  for (int n = 0; n < 50; ++n) {
    x.push_back(random.normal());
    mirrored.push_back(-x.back());
  }
  const auto chart = cusum_chart(x, {0, 0.3, 2}), mirror = cusum_chart(mirrored, {0, 0.3, 2});
  ASSERT_TRUE(chart && mirror);
  for (std::size_t n = 0; n < x.size(); ++n) EXPECT_NEAR(chart->high[n], mirror->low[n], 1e-12);
  EXPECT_EQ(chart->signals, mirror->signals);
}

TEST(CusumChart, RefusesADesignThatIsNone) {
  EXPECT_FALSE(cusum_chart(Values{1}, {0, -0.1, 4}));
  EXPECT_FALSE(cusum_chart(Values{1}, {0, 0.5, 0}));
  EXPECT_FALSE(cusum_chart(Values{1}, {nan_value, 0.5, 4}));
  EXPECT_FALSE(cusum_chart(Values{}, {0, 0.5, 4}));
}

TEST(ZoneRules, EachRuleCallsAtThePointThatEndsItsPattern) {
  const auto at = [](const Values& x, ZoneRule rule) { return zone_calls(x, 0, 1)[static_cast<std::size_t>(rule)].at; };
  EXPECT_EQ(at({0, 3.1, 0, -3.1}, ZoneRule::one_beyond_3), (Points{2, 4}));
  EXPECT_EQ(at({2.1, 0, 2.2}, ZoneRule::two_of_3_beyond_2), Points{3});
  EXPECT_EQ(at({2.1, 0, -2.2}, ZoneRule::two_of_3_beyond_2), Points{});
  EXPECT_EQ(at({1.1, 1.2, 0, 1.1, 1.1}, ZoneRule::four_of_5_beyond_1), Points{5});
  EXPECT_EQ(at({.1, .1, .1, .1, .1, .1, .1, .1, .1, -.1}, ZoneRule::eight_on_a_side), (Points{8, 9}));
  EXPECT_EQ(at({.1, .1, .1, 0, .1, .1, .1, .1}, ZoneRule::eight_on_a_side), Points{});
  for (const ZoneCall& call : zone_calls(Values(20, 1), 0, 0)) EXPECT_TRUE(call.at.empty());
}

// How long values in control run until the first call, by 4,000 seeded runs of at most 3,000 points.
double simulated_run_length(std::size_t rules) {
  numerics::Random random(20261126);
  constexpr int runs = 4000;
  double points = 0;
  for (int run = 0; run < runs; ++run) {
    Values window;
    for (bool is_called = false; !is_called && window.size() < 3000;) {
      window.push_back(random.normal());
      ++points;
      const std::size_t seen = std::min<std::size_t>(window.size(), 8);
      const auto calls = zone_calls(std::span(window).last(seen), 0, 1);
      for (std::size_t rule = 0; rule < rules; ++rule)
        is_called |= !calls[rule].at.empty() && calls[rule].at.back() == seen;
    }
  }
  return points / runs;
}

// Champ and Woodall 1987 (from memory): 91.75 with all four rules. The standard error of so many runs is 1.5 %.
TEST(ZoneRules, AllFourRulesTogetherCostAFalseAlarmEvery92PointsMatchesPublished_ChampWoodall) {
  EXPECT_NEAR(simulated_run_length(4), 91.75, 4.5);
}

TEST(RunLength, TheChartOfSingleValuesHasItsClosedForm) {
  // lambda = 1: each point calls by itself with 2 Phi(-3).
  const auto length = ewma_run_length(1, 3, 0);
  ASSERT_TRUE(length);
  EXPECT_NEAR(*length, 1 / std::erfc(3 / std::sqrt(2)), 1e-6 * *length);
}

TEST(RunLength, Property_AShiftShortensIt) {
  double cusum_before = 1e9, ewma_before = 1e9;
  for (const double shift : {0.0, 0.25, 0.5, 1.0, 2.0, 4.0}) {
    const auto cusum = cusum_run_length(0.5, 5, shift);
    const auto ewma = ewma_run_length(0.05, 2.5, shift);
    ASSERT_TRUE(cusum && ewma);
    EXPECT_LT(cusum->two, cusum_before);
    EXPECT_LT(*ewma, ewma_before);
    EXPECT_LE(cusum->two, cusum->one);
    cusum_before = cusum->two;
    ewma_before = *ewma;
  }
}

TEST(RunLength, RefusesWhatIsNoDesign) {
  EXPECT_FALSE(cusum_run_length(-1, 4, 0));
  EXPECT_FALSE(cusum_run_length(0.5, 0, 0));
  EXPECT_FALSE(cusum_run_length(0.5, 4, nan_value));
  EXPECT_FALSE(ewma_run_length(0, 3, 0));
  EXPECT_FALSE(ewma_run_length(0.2, 7, 0));
  EXPECT_FALSE(cusum_run_length(5, 40, 0));  // about e^400
  EXPECT_TRUE(cusum_run_length(0.5, 10, 3));
}

}  // namespace
}  // namespace hw::condition
