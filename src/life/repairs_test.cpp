#include "src/life/repairs.h"

#include <cmath>

#include <gtest/gtest.h>

#include "src/life/failure_rate.h"
#include "src/life/log_linear.h"
#include "src/life/mean_cumulative.h"
#include "src/life/power_law.h"
#include "src/life/trend.h"

namespace hw::life {
namespace {

TEST(Repairs, WhatIsNoWatchIsRefused) {
  EXPECT_TRUE(check_repairs({{3, 3, 5}, 5}));
  EXPECT_TRUE(check_repairs({{}, 5}));
  EXPECT_FALSE(check_repairs({{}, std::nullopt}));
  EXPECT_FALSE(check_repairs({{3, 2}, 5}));
  EXPECT_FALSE(check_repairs({{3, 6}, 5}));
  EXPECT_FALSE(check_repairs({{0, 3}, 5}));
  EXPECT_FALSE(check_repairs({{NAN}, 5}));
  EXPECT_FALSE(check_repairs({{3}, -5}));
}

TEST(Repairs, EvenFailuresShowNoTrend) {
  Repairs even{{}, 100};
  for (int n = 0; n < 50; ++n) even.ages.push_back(2 * n + 1);
  EXPECT_NEAR(laplace_test({&even, 1})->u, 0, 1e-12);
  EXPECT_NEAR(fit_log_linear(even)->gamma1, 0, 1e-10);
  EXPECT_NEAR(fit_log_linear(even)->gamma0, std::log(0.5), 1e-10);
  EXPECT_GT(mil_hdbk_test({&even, 1})->p_two_sided, 0.5);
}

TEST(Repairs, PoolingOneMachineIsThatMachine) {
  const Repairs one{{5, 40, 43, 175, 389}, 500};
  EXPECT_NEAR(fit_pooled_power_law({&one, 1})->beta, fit_power_law(one, 0.9)->likeliest.beta, 1e-11);
}

TEST(Repairs, TheLogLinearIntensityMatchesItsOwnEquations) {
  for (const Repairs& repairs :
       {Repairs{{1, 2, 3, 5}, 1000}, Repairs{{900, 990, 998, 999.5}, 1000}, Repairs{{400}, 1000}}) {
    const auto fit = fit_log_linear(repairs);
    ASSERT_TRUE(fit);
    // As many failures as expected: the integral of the intensity.
    const double area = std::exp(fit->gamma0) * std::expm1(fit->gamma1 * 1000) / fit->gamma1;
    EXPECT_NEAR(area, static_cast<double>(repairs.ages.size()), 1e-7);
  }
  EXPECT_FALSE(fit_log_linear({{}, 1000}));
  EXPECT_FALSE(fit_log_linear({{1000}, 1000}));
}

TEST(Repairs, WithoutAFailureThereIsALowerBoundOnly) {
  const MeanBetween mtbf = mean_between(1000, 0, WatchEnd::at_a_time, 0.9);
  EXPECT_FALSE(mtbf.mean);
  EXPECT_FALSE(mtbf.upper);
  EXPECT_NEAR(mtbf.lower, 1000 / std::log(10), 1e-9);
  EXPECT_FALSE(laplace_test({}));
  EXPECT_FALSE(mil_hdbk_test({}));
  EXPECT_FALSE(count_reversals({{5}, 10}));
}

TEST(MeanCumulative, OfOneMachineCountsItsFailures) {
  const WatchedMachine machine{0, 10, {2, 2, 7}};
  const auto steps = mean_cumulative({&machine, 1}, 0.95);
  ASSERT_EQ(steps->size(), 2u);
  EXPECT_EQ((*steps)[0].mean, 2);
  EXPECT_EQ((*steps)[1].mean, 3);
  EXPECT_EQ((*steps)[1].se, 0);  // nothing to differ from
}

TEST(MeanCumulative, RefusesFailuresOutsideTheWatch) {
  for (const WatchedMachine& machine :
       {WatchedMachine{3, 10, {2}}, WatchedMachine{0, 10, {12}}, WatchedMachine{5, 5, {}}}) {
    EXPECT_FALSE(mean_cumulative({&machine, 1}, 0.95));
  }
}

}  // namespace
}  // namespace hw::life
