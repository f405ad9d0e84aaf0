// tests/published/t2_recurrent.json: failures of machines that are repaired.

#include <boost/json.hpp>
#include <gtest/gtest.h>

#include "src/life/failure_rate.h"
#include "src/life/log_linear.h"
#include "src/life/mean_cumulative.h"
#include "src/life/power_law.h"
#include "src/life/trend.h"
#include "tests/life/near.h"

namespace hw::tests {
namespace {

using life::Repairs;

const PublishedCases& repair_cases() {
  static const PublishedCases cases("t2_recurrent.json");
  return cases;
}

Repairs repairs_of(const value& input) {
  Repairs repairs{numbers(input.at("times")), std::nullopt};
  if (!input.at("T").is_null()) repairs.until = number(input.at("T"));
  EXPECT_TRUE(life::check_repairs(repairs));
  return repairs;
}

void expect_tests(const Repairs& repairs, const value& published, const std::string& id) {
  const auto laplace = life::laplace_test({&repairs, 1});
  const auto handbook = life::mil_hdbk_test({&repairs, 1});
  const auto reversals = life::count_reversals(repairs);
  ASSERT_TRUE(laplace && handbook && reversals);
  expect_near(laplace->u, published.at("laplace_u"), 1e-8, id);
  expect_near(laplace->p_two_sided, published.at("laplace_p_two_sided"), 1e-6, id);
  expect_near(handbook->chi2, published.at("mil_hdbk_chi2"), 1e-8, id);
  EXPECT_EQ(handbook->degrees, number(published.at("mil_hdbk_df"))) << id;
  expect_near(handbook->p_improving, published.at("mil_hdbk_p_improving"), 1e-6, id);
  expect_near(handbook->p_deteriorating, published.at("mil_hdbk_p_deteriorating"), 1e-6, id);
  expect_near(handbook->p_two_sided, published.at("mil_hdbk_p_two_sided"), 1e-6, id);
  EXPECT_EQ(reversals->count, number(published.at("reversals"))) << id;
  EXPECT_EQ(reversals->count_max, number(published.at("reversals_max"))) << id;
  expect_near(reversals->z, published.at("reversals_z_nist"), 1e-8, id);
}

void expect_power_law(const Repairs& repairs, const value& published, const std::string& id) {
  const auto fit = life::fit_power_law(repairs, number(published.at("beta_ci_conf")));
  ASSERT_TRUE(fit) << id;
  const double end = life::end_of_watch(repairs);
  expect_near(fit->likeliest.beta, published.at("beta_mle"), 1e-8, id);
  expect_near(fit->likeliest.lambda, published.at("lambda_mle"), 1e-8, id);
  expect_near(fit->likeliest.intensity(end), published.at("intensity_end"), 1e-8, id);
  expect_near(1 / fit->likeliest.intensity(end), published.at("mtbf_end"), 1e-8, id);
  expect_near(fit->loglik, published.at("loglik"), 1e-8, id);
  expect_near(fit->beta_lower, published.at("beta_ci").at(0), 1e-8, id);
  expect_near(fit->beta_upper, published.at("beta_ci").at(1), 1e-8, id);
  ASSERT_TRUE(fit->unbiased) << id;
  expect_near(fit->unbiased->beta, published.at("beta_unbiased"), 1e-8, id);
  expect_near(fit->unbiased->lambda, published.at("lambda_with_unbiased_beta"), 1e-8, id);
  expect_near(1 / fit->unbiased->intensity(end), published.at("mtbf_end_unbiased"), 1e-8, id);
  expect_near(*fit->cramer_von_mises, published.at("cramer_von_mises"), 1e-8, id);
  if (const value* next = published.as_object().if_contains("expected_events_next")) {
    expect_near(fit->likeliest.expected(end, end + number(next->at("interval"))), next->at("value"), 1e-8, id);
  }
}

TEST(Repairs, TrendTestsMatchPublished_T2) {
  for (const char* id : {"T2-01", "T2-03", "T2-04", "T2-05", "T2-10"}) {
    expect_tests(repairs_of(repair_cases().input(id)), repair_cases().expected(id), id);
  }
}

TEST(Repairs, ThePowerLawMatchesPublished_T2) {
  for (const char* id : {"T2-02", "T2-03", "T2-04", "T2-05", "T2-10"}) {
    expect_power_law(repairs_of(repair_cases().input(id)), repair_cases().expected(id), id);
  }
}

TEST(Repairs, TheIntervalOfTheMtbfMatchesPublished_T2_02) {
  const value& nist = repair_cases().expected("T2-02").at("nist_mtbf_interval");
  const auto fit = life::fit_power_law(repairs_of(repair_cases().input("T2-02")), number(nist.at("conf")));
  expect_near(*fit->mtbf_lower, nist.at("lower"), 1e-8, "T2-02");
  expect_near(*fit->mtbf_upper, nist.at("upper"), 1e-8, "T2-02");
}

TEST(Repairs, FactorsForTheMtbfMatchPublished_T2_06) {
  using life::WatchEnd;
  for (const value& one : repair_cases().expected("T2-06").as_array()) {
    const double failures = number(one.at("r")), conf = number(one.at("conf"));
    const auto timed = life::mean_between(1, failures, WatchEnd::at_a_time, conf);
    if (failures == 0) {
      expect_near(1 / timed.lower, one.at("zero_fail_lower_T_over"), 1e-9, "T2-06");  // the bound is T over it
      continue;
    }
    const auto failed = life::mean_between(1, failures, WatchEnd::at_a_failure, conf);
    expect_near(timed.lower * failures, one.at("time_lower"), 1e-9, "T2-06");
    expect_near(*timed.upper * failures, one.at("time_upper"), 1e-9, "T2-06");
    expect_near(failed.lower * failures, one.at("fail_lower"), 1e-9, "T2-06");
    expect_near(*failed.upper * failures, one.at("fail_upper"), 1e-9, "T2-06");
    expect_near(life::mean_between_at_least(1, failures, WatchEnd::at_a_time, conf) * failures,
                one.at("one_sided_lower_time"), 1e-9, "T2-06");
  }
}

TEST(Repairs, BoundsOfTheMtbfMatchPublished_T2_07) {
  const auto mtbf = life::mean_between(800, 2, life::WatchEnd::at_a_time, 0.9);
  expect_near(*mtbf.mean, repair_cases().expected("T2-07").at("mtbf"), 1e-9, "T2-07");
  expect_near(mtbf.lower, repair_cases().expected("T2-07").at("lower"), 1e-9, "T2-07");
  expect_near(*mtbf.upper, repair_cases().expected("T2-07").at("upper"), 1e-9, "T2-07");
}

TEST(Repairs, TheMeanCumulativeFunctionMatchesPublished_T2_08) {
  std::vector<life::WatchedMachine> engines;
  for (const auto& one : repair_cases().input("T2-08").as_object()) {
    engines.push_back(
        {number(one.value().at("entry")), number(one.value().at("end")), numbers(one.value().at("events"))});
  }
  const auto steps = life::mean_cumulative(engines, 0.95);
  const auto& published = repair_cases().expected("T2-08").as_array();
  ASSERT_TRUE(steps);
  ASSERT_EQ(steps->size(), published.size());
  for (std::size_t n = 0; n < published.size(); ++n) {
    const life::CumulativeStep& step = (*steps)[n];
    EXPECT_EQ(step.age, number(published[n].at("t")));
    EXPECT_EQ(step.at_risk, number(published[n].at("at_risk")));
    EXPECT_EQ(step.failures, number(published[n].at("events")));
    EXPECT_NEAR(step.mean, number(published[n].at("mcf")), 1e-9);
    expect_near(step.se, published[n].at("se_robust"), 1e-6, "se");
    expect_near(step.se_poisson, published[n].at("se_poisson"), 1e-6, "Poisson");
    expect_near(step.lower, published[n].at("ci95_log_robust").at(0), 1e-6, "lower");
    expect_near(step.upper, published[n].at("ci95_log_robust").at(1), 1e-6, "upper");
  }
}

TEST(Repairs, PooledMachinesMatchPublished_T2_09) {
  std::vector<Repairs> machines;
  for (const value& one : repair_cases().input("T2-09").as_array()) machines.push_back(repairs_of(one));
  const value& expected = repair_cases().expected("T2-09");
  const auto law = life::fit_pooled_power_law(machines);
  expect_near(law->beta, expected.at("beta_mle"), 1e-8, "beta");
  expect_near(law->lambda, expected.at("lambda_mle"), 1e-8, "lambda");
  expect_near(life::laplace_test(machines)->u, expected.at("laplace_u_pooled"), 1e-8, "Laplace");
  expect_near(life::mil_hdbk_test(machines)->chi2, expected.at("mil_hdbk_chi2_pooled"), 1e-8, "chi2");
  EXPECT_EQ(life::mil_hdbk_test(machines)->degrees, number(expected.at("mil_hdbk_df")));
}

TEST(Repairs, TooFewFailuresMatchPublished_T2_11) {
  const value& input = repair_cases().input("T2-11");
  const value& expected = repair_cases().expected("T2-11");
  const Repairs one = repairs_of(input.at(0));
  const auto fit = life::fit_power_law(one, 0.9);
  ASSERT_TRUE(fit);
  EXPECT_FALSE(fit->unbiased);
  expect_near(fit->likeliest.beta, expected.at(0).at("beta_mle"), 1e-8, "beta");
  expect_near(fit->beta_lower, expected.at(0).at("beta_ci90").at(0), 1e-8, "lower");
  expect_near(fit->beta_upper, expected.at(0).at("beta_ci90").at(1), 1e-8, "upper");
  expect_near(life::laplace_test({&one, 1})->u, expected.at(0).at("laplace_u"), 1e-8, "u");
  EXPECT_FALSE(life::fit_power_law(repairs_of(input.at(1)), 0.9));
  EXPECT_FALSE(life::fit_power_law(repairs_of(input.at(2)), 0.9));
  expect_near(life::mean_between(1000, 0, life::WatchEnd::at_a_time, 0.95).lower, expected.at(2).at("mtbf_lower95"),
              1e-8, "mtbf");
  expect_power_law(repairs_of(input.at(3)), expected.at(3), "T2-11");
  expect_tests(repairs_of(input.at(3)), expected.at(3), "T2-11");
}

TEST(Repairs, TheLogLinearIntensityMatchesPublished_T2_12) {
  const auto fit = life::fit_log_linear(repairs_of(repair_cases().input("T2-12")));
  ASSERT_TRUE(fit);
  expect_near(fit->gamma0, repair_cases().expected("T2-12").at("gamma0"), 1e-7, "gamma0");
  expect_near(fit->gamma1, repair_cases().expected("T2-12").at("gamma1"), 1e-7, "gamma1");
  expect_near(fit->loglik, repair_cases().expected("T2-12").at("loglik"), 1e-7, "loglik");
}

}  // namespace
}  // namespace hw::tests
