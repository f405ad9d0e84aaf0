// Lines, Sen's slope, Mann-Kendall, crossings, first passage, drift, rates; the published values are checked in
// tests/condition.

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

#include <gtest/gtest.h>

#include "libs/numerics/random.h"
#include "src/condition/drift_fit.h"
#include "src/condition/first_passage.h"
#include "src/condition/line_crossing.h"
#include "src/condition/line_fit.h"
#include "src/condition/mann_kendall.h"
#include "src/condition/sen_slope.h"
#include "src/condition/series.h"
#include "src/condition/uncertain_passage.h"
#include "src/condition/use_rate.h"

namespace hw::condition {
namespace {

using Series = std::vector<double>;

constexpr double no_number = std::numeric_limits<double>::quiet_NaN();

struct Cloud {
  Series x, y;
};

Cloud cloud(std::uint64_t seed, std::size_t count, double slope) {
  numerics::Random random(seed);
  Cloud points;
  for (std::size_t n = 0; n < count; ++n) {
    points.x.push_back(random.between(0, 100));
    points.y.push_back(5 + slope * points.x.back() + random.normal());
  }
  return points;
}

Series negated(Series values) {
  for (double& value : values) value = -value;
  return values;
}

TEST(LineFit, Property_APredictionIsWiderThanTheLineAndBothWidenAwayFromTheMiddle) {
  const Cloud points = cloud(1, 12, 0.1);
  const auto fit = fit_line(points.x, points.y);
  ASSERT_TRUE(fit);
  double before = 0;
  for (const double away : {0.0, 10.0, 50.0, 200.0}) {
    const LinePrediction at = predict(*fit, fit->x_mean + away, 0.9);
    const double ci = at.ci[1] - at.ci[0], pi = at.pi[1] - at.pi[0];
    EXPECT_LT(ci, pi);
    EXPECT_GT(ci, before);
    before = ci;
    EXPECT_LT(pi, predict(*fit, fit->x_mean + away, 0.99).pi[1] - predict(*fit, fit->x_mean + away, 0.99).pi[0]);
  }
}

// In 2,000 seeded samples the 90 % prediction interval holds the next reading nine times of ten.
TEST(LineFit, ThePredictionIntervalHoldsAsOftenAsItSays) {
  int held = 0;
  constexpr int samples = 2000;
  for (int n = 0; n < samples; ++n) {
    const Cloud points = cloud(static_cast<std::uint64_t>(n) + 10, 9, 0.02);
    const Series x(points.x.begin(), points.x.end() - 1), y(points.y.begin(), points.y.end() - 1);
    const LinePrediction next = predict(*fit_line(x, y), points.x.back(), 0.9);
    held += next.pi[0] <= points.y.back() && points.y.back() <= next.pi[1] ? 1 : 0;
  }
  EXPECT_NEAR(held / static_cast<double>(samples), 0.9, 0.02);
}

TEST(LineFit, RefusesWhatHasNoLine) {
  EXPECT_FALSE(fit_line(Series{1, 2}, Series{1, 2}));
  EXPECT_FALSE(fit_line(Series{3, 3, 3}, Series{1, 2, 3}));
  EXPECT_FALSE(fit_line(Series{1, 2, 3}, Series{1, 2}));
  EXPECT_FALSE(fit_line(Series{1, 2, no_number}, Series{1, 2, 3}));
  EXPECT_FALSE(fit_through_origin(Series{0, 0}, Series{1, 2}));
  EXPECT_FALSE(check_confidence(1));
  EXPECT_FALSE(check_confidence(no_number));
}

TEST(LineCrossing, AFallingLineMirrorsARisingOne) {
  const Cloud points = cloud(3, 15, 0.2);
  const LineCrossing up = cross_limit(*fit_line(points.x, points.y), 60, 0.9);
  const LineCrossing down = cross_limit(*fit_line(points.x, negated(points.y)), -60, 0.9);
  ASSERT_TRUE(up.line_crossing && up.pi_crossing && up.fieller);
  EXPECT_NEAR(*up.line_crossing, *down.line_crossing, 1e-9);
  EXPECT_NEAR(*up.pi_crossing, *down.pi_crossing, 1e-9);
  EXPECT_NEAR((*up.fieller)[0], (*down.fieller)[0], 1e-9);
}

TEST(LineCrossing, EachCrossingIsWhereItsBoundMeetsTheLimit) {
  const Cloud points = cloud(4, 15, 0.2);
  const auto fit = fit_line(points.x, points.y);
  const LineCrossing crossing = cross_limit(*fit, 60, 0.9);
  EXPECT_LT(*crossing.pi_crossing, *crossing.line_crossing);
  EXPECT_NEAR(predict(*fit, *crossing.pi_crossing, 0.8).pi[1], 60, 1e-9);  // one-sided 90 % is two-sided 80 %
  EXPECT_NEAR(predict(*fit, (*crossing.fieller)[0], 0.9).ci[1], 60, 1e-9);
  EXPECT_NEAR(predict(*fit, (*crossing.fieller)[1], 0.9).ci[0], 60, 1e-9);
}

TEST(LineCrossing, ASlopeThatCannotBeToldFromNoneHasNoInterval) {
  const LineCrossing crossing = cross_limit(*fit_line(Series{1, 2, 3, 4, 5}, Series{3, 1, 4, 1, 3.2}), 50, 0.95);
  EXPECT_TRUE(crossing.line_crossing);
  EXPECT_FALSE(crossing.fieller);
  EXPECT_FALSE(cross_limit(*fit_line(Series{1, 2, 3}, Series{5, 5, 5}), 50, 0.95).line_crossing);
}

TEST(LineCrossing, ReadingsExactlyOnALineCrossWhereItDoes) {
  const LineCrossing crossing = cross_limit(*fit_line(Series{0, 1, 2, 3}, Series{0, 1, 2, 3}), 10, 0.95);
  EXPECT_NEAR(*crossing.line_crossing, 10, 1e-12);
  EXPECT_NEAR(*crossing.pi_crossing, 10, 1e-12);
}

TEST(MannKendall, Property_NegatingTheReadingsNegatesSAndKeepsP) {
  for (std::uint64_t seed = 0; seed < 20; ++seed) {
    Cloud points = cloud(seed, 9, 0.01);
    points.y[3] = points.y[5];  // a tie
    const auto one = mann_kendall(points.x, points.y), other = mann_kendall(points.x, negated(points.y));
    ASSERT_TRUE(one && other);
    EXPECT_EQ(one->S, -other->S);
    EXPECT_EQ(one->variance, other->variance);
    EXPECT_DOUBLE_EQ(*one->p_exact_one_sided, *other->p_exact_one_sided);
  }
}

// By trying all orders of y.
double p_by_trying(const Series& y, long long s) {
  Series x(y.size()), order = y;
  std::iota(x.begin(), x.end(), 1);
  std::sort(order.begin(), order.end());
  double all = 0, as_far = 0;
  do {
    ++all;
    as_far += mann_kendall(x, order)->S >= std::abs(s) ? 1 : 0;
  } while (std::next_permutation(order.begin(), order.end()));
  return as_far / all;
}

TEST(MannKendall, TheExactPIsThatOfAllOrdersAlsoWithTies) {
  for (const Series& y : {Series{3, 1, 4, 5, 2, 6}, Series{1, 1, 2, 3, 3, 3}, Series{2, 2, 1, 5, 5}, Series{1, 2}}) {
    Series x(y.size());
    std::iota(x.begin(), x.end(), 1);
    const auto kendall = mann_kendall(x, y);
    ASSERT_TRUE(kendall);
    EXPECT_NEAR(*kendall->p_exact_one_sided, p_by_trying(y, kendall->S), 1e-12);
  }
}

TEST(MannKendall, ReadingsThatAreAllAlikeShowNoTrend) {
  const auto kendall = mann_kendall(Series{1, 2, 3, 4}, Series{7, 7, 7, 7});
  ASSERT_TRUE(kendall);
  EXPECT_EQ(kendall->S, 0);
  EXPECT_EQ(kendall->p_two_sided, 1);
  EXPECT_EQ(*kendall->p_exact_one_sided, 1);
  EXPECT_EQ(kendall->tau_b, 0);
}

TEST(MannKendall, RefusesWhatHasNoOrder) {
  EXPECT_FALSE(mann_kendall(Series{1}, Series{1}));
  EXPECT_FALSE(mann_kendall(Series{1, 1, 1}, Series{1, 2, 3}));
  EXPECT_FALSE(mann_kendall(Series(paired_points_max + 1, 1), Series(paired_points_max + 1, 1)));
}

TEST(SenSlope, OneWildReadingDoesNotMoveIt) {
  Series x(21), y;
  std::iota(x.begin(), x.end(), 0);
  for (const double at : x) y.push_back(3 + 0.5 * at);
  y[10] = 1e6;
  const auto sen = sen_slope(x, y);
  ASSERT_TRUE(sen);
  EXPECT_NEAR(sen->slope, 0.5, 1e-9);
  EXPECT_NEAR(sen->intercept_from_residuals, 3, 1e-9);
  EXPECT_LE(sen->slope_ci95[0], sen->slope);
  EXPECT_GE(sen->slope_ci95[1], sen->slope);
}

TEST(FirstPassage, Property_TheChanceRisesFromZeroToOne) {
  for (const Drift& drift : {Drift{0.0008, 0.02}, Drift{0.0004, 0.03}, Drift{0.01, 0.0001}}) {
    double before = 0;
    for (double t = 1; t < 1e9; t *= 1.5) {
      const double now = first_passage_below(drift, 1.5, t);
      EXPECT_GE(now, before - 1e-12);
      EXPECT_LE(now, 1);
      before = now;
    }
    EXPECT_NEAR(before, 1, 1e-9);
    EXPECT_EQ(first_passage_below(drift, 1.5, 0), 0);
  }
}

TEST(FirstPassage, WithoutADriftTowardTheLimitItMayNeverCome) {
  const Drift away{-0.001, 0.05};
  const double ever = std::exp(2 * away.nu * 1.5 / (away.sigma * away.sigma));
  EXPECT_NEAR(first_passage_below(away, 1.5, 1e12), ever, 1e-9);
  EXPECT_FALSE(first_passage_quantile(away, 1.5, ever + 0.01));
  EXPECT_TRUE(first_passage_quantile(away, 1.5, ever - 0.01));
  EXPECT_FALSE(first_passage(away, 1.5));
}

// Shape / mean = 5e8: exp(2 shape / mean) is far beyond a double.
TEST(FirstPassage, NearlyCertainDriftsDoNotOverflow) {
  const Drift sure{0.01, 0.0000063};
  EXPECT_NEAR(first_passage_below(sure, 1.5, 150), 0.5, 0.01);
  EXPECT_NEAR(*first_passage_quantile(sure, 1.5, 0.5), 150, 0.01);
  EXPECT_NEAR(first_passage_below(sure, 1.5, 140), 0, 1e-12);
  // Shape / mean = 1e40.
  EXPECT_NEAR(first_passage_below({1, 1e-20}, 1, 1), 0.5, 1e-9);
  EXPECT_EQ(first_passage_below({1, 1e-20}, 1, 0.99), 0);
  EXPECT_FALSE(first_passage({1e300, 1}, 1));
  EXPECT_FALSE(check_passage({0, 1e-300}, 1));
}

TEST(FirstPassage, Property_TheQuantileIsTheInverse) {
  for (const double p : {0.001, 0.05, 0.5, 0.95, 0.999}) {
    const auto t = first_passage_quantile({0.0004, 0.03}, 0.8, p);
    ASSERT_TRUE(t);
    EXPECT_NEAR(first_passage_below({0.0004, 0.03}, 0.8, *t), p, 1e-10);
  }
}

TEST(DriftFit, RefusesTimesThatDoNotRise) {
  const auto fit = fit_drift(Series{0, 5, 5}, Series{1, 2, 3});
  ASSERT_FALSE(fit);
  EXPECT_EQ(fit.error().message, "t[2]: 5 does not come after 5; each reading has its own, later time");
  EXPECT_FALSE(fit_drift(Series{0, 1}, Series{1, 2}));
}

TEST(UncertainPassage, WithManyReadingsItIsTheFirstPassageAndWithFewItIsWider) {
  numerics::Random random(5);
  Series t, x;
  double value = 0;
  for (int n = 0; n < 4000; ++n) {
    t.push_back(n);
    x.push_back(value);
    value += 0.02 + 0.1 * random.normal();
  }
  const auto many = fit_drift(t, x);
  const UncertainPassage known(*many, 10, LimitSide::above);
  for (const double at : {300.0, 500.0, 800.0}) {
    EXPECT_NEAR(known.below(at), first_passage_below({many->nu, many->sigma_unbiased}, 10, at), 0.03);
  }
  const auto few = fit_drift(Series(t.begin(), t.begin() + 5), Series(x.begin(), x.begin() + 5));
  const UncertainPassage guessed(*few, 10, LimitSide::above);
  EXPECT_LT(guessed.below(1e7), 0.99);  // it may not drift at all
  EXPECT_LT(guessed.below(100), guessed.below(1000));
}

TEST(UseRate, LessWayOilWithEachFillIsToldWithWhatItMeans) {
  std::vector<Fill> fills = {{0, 1}};
  for (int n = 1; n <= 8; ++n) fills.push_back({100.0 * n, 2.0 - 0.15 * n});
  const auto rates = use_rates(fills);
  ASSERT_TRUE(rates);
  EXPECT_EQ(rates->direction, RateTrend::less);
  EXPECT_NEAR(rates->rates.front(), 0.0185, 1e-12);
  EXPECT_NEAR(rates->over_all, (8 * 2.0 - 0.15 * 36) / 800, 1e-12);
  EXPECT_NE(meaning_of(Consumable::way_oil, rates->direction).find("clogged"), std::string_view::npos);
}

TEST(UseRate, FillsAtUnequalDistancesAreNoTrend) {
  const auto rates = use_rates(std::vector<Fill>{{0, 2}, {100, 1}, {400, 3}, {450, 0.5}, {900, 4.5}});
  ASSERT_TRUE(rates);
  EXPECT_EQ(rates->direction, RateTrend::none_seen);
  EXPECT_EQ(meaning_of(Consumable::way_oil, rates->direction), "");
  EXPECT_NEAR(rates->over_all, 0.01, 1e-12);
  EXPECT_NEAR(rates->last_against_rest, 1, 1e-12);
}

TEST(UseRate, EachConsumableHasItsMeaningBothWays) {
  for (const auto consumable : {Consumable::way_oil, Consumable::hydraulic_oil, Consumable::coolant,
                                Consumable::spindle_oil, Consumable::other}) {
    EXPECT_TRUE(meaning_of(consumable, RateTrend::less).starts_with("less"));
    EXPECT_TRUE(meaning_of(consumable, RateTrend::more).starts_with("more"));
  }
}

TEST(UseRate, RefusesACounterThatDoesNotRiseAndAmountsOfNothing) {
  EXPECT_FALSE(use_rates(std::vector<Fill>{{0, 1}}));
  EXPECT_FALSE(use_rates(std::vector<Fill>{{0, 1}, {0, 1}}));
  EXPECT_FALSE(use_rates(std::vector<Fill>{{0, 1}, {10, 0}}));
  EXPECT_FALSE(use_rates(std::vector<Fill>{{0, 1}, {10, no_number}}));
}

TEST(SeriesChecks, AMedianIsThatOfTheOrderedValues) {
  EXPECT_EQ(median_of({3, 1, 2}), 2);
  EXPECT_EQ(median_of({4, 1, 3, 2}), 2.5);
}

}  // namespace
}  // namespace hw::condition
