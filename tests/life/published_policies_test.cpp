// tests/published/t3_replacement.json: which interval costs least.

#include <boost/json.hpp>
#include <gtest/gtest.h>

#include "src/life/age_replacement.h"
#include "src/life/block_replacement.h"
#include "src/life/inspection.h"
#include "src/life/renewals.h"
#include "tests/life/near.h"

namespace hw::tests {
namespace {

const PublishedCases& policy_cases() {
  static const PublishedCases cases("t3_replacement.json");
  return cases;
}

TEST(Policies, AgeReplacementMatchesPublished_T3_01) {
  for (const value& one : policy_cases().expected("T3-01").as_array()) {
    const life::Weibull part{number(one.at("beta")), 1};
    const life::ReplacementCosts costs{1, number(one.at("ratio"))};
    const auto age = life::stationary_age(part, costs);
    ASSERT_TRUE(age);
    expect_near(*age, one.at("T_over_eta"), 1e-6, "T");
    expect_near(life::age_cost_rate(part, costs, *age), one.at("cost_rate_times_eta_over_cp"), 1e-9, "C");
    expect_near(life::age_cost_rate(part, costs, 0.8 * *age), one.at("cost_rate_at_0p8T"), 1e-9, "C(0.8 T)");
    expect_near(life::age_cost_rate(part, costs, 1.25 * *age), one.at("cost_rate_at_1p25T"), 1e-9, "C(1.25 T)");
    const life::AgeAdvice advice = life::advise_age(part, costs);
    expect_near(advice.run_to_failure, one.at("run_to_failure_rate"), 1e-9, "run to failure");
    EXPECT_NEAR(advice.saving, number(one.at("saving_fraction")), 1e-9);
  }
}

TEST(Policies, APumpSealMatchesPublished_T3_02) {
  const value& input = policy_cases().input("T3-02");
  const value& expected = policy_cases().expected("T3-02");
  const life::AgeAdvice advice = life::advise_age({number(input.at("beta")), number(input.at("eta"))},
                                                  {number(input.at("cp")), number(input.at("cf"))});
  ASSERT_TRUE(advice.interval);
  expect_near(*advice.interval, expected.at("T"), 1e-6, "T");
  expect_near(advice.cost_rate, expected.at("cost_rate"), 1e-9, "C");
  expect_near(advice.run_to_failure, expected.at("run_to_failure"), 1e-9, "run to failure");
  expect_near(advice.saving, expected.at("saving_fraction"), 1e-8, "saving");
  expect_near(advice.mean_cycle, expected.at("mean_cycle"), 1e-6, "cycle");
}

TEST(Policies, RunToFailureIsAdvisedAsPublished_T3_03) {
  for (std::size_t n = 0; n < 4; ++n) {
    const value& one = policy_cases().input("T3-03").at(n);
    const life::AgeAdvice advice = life::advise_age({number(one.at("beta")), 1}, {1, number(one.at("ratio"))});
    EXPECT_FALSE(advice.interval);
    EXPECT_EQ(advice.saving, 0);
    const value& expected = policy_cases().expected("T3-03").at(n);
    expect_near(advice.cost_rate, expected.at(n < 3 ? "rate" : "run_to_failure_rate"), 1e-8, "rate");
  }
}

TEST(Policies, RenewalsMatchPublished_T3_04) {
  for (const value& one : policy_cases().expected("T3-04").as_array()) {
    const life::Renewals renewals = life::renewals_by({number(one.at("beta")), 1}, number(one.at("t_over_eta")));
    expect_near(renewals.expected, one.at("M"), 1e-6, "M");
    expect_near(renewals.density, one.at("m_density"), 1e-5, "m");
  }
}

TEST(Policies, BlockReplacementMatchesPublished_T3_05) {
  for (const value& one : policy_cases().expected("T3-05").as_array()) {
    const life::BlockAdvice advice = life::advise_block({number(one.at("beta")), 1}, {1, number(one.at("ratio"))});
    ASSERT_TRUE(advice.interval);
    expect_near(*advice.interval, one.at("T_over_eta"), 1e-5, "T");
    expect_near(advice.cost_rate, one.at("cost_rate"), 1e-7, "C");
    expect_near(advice.run_to_failure, one.at("rate_at_infinity"), 1e-7, "run to failure");
    expect_near(advice.failures, one.at("M_at_T"), 1e-5, "M");
  }
}

TEST(Policies, OverhaulsMatchPublished_T3_06) {
  for (const value& one : policy_cases().expected("T3-06").as_array()) {
    const life::OverhaulAdvice advice =
        life::advise_overhaul({number(one.at("beta")), number(one.at("eta"))},
                              {number(one.at("c_replace")), number(one.at("c_minimal_repair"))});
    expect_near(advice.interval.value(), one.at("T"), 1e-10, "T");
    expect_near(advice.cost_rate, one.at("cost_rate"), 1e-10, "C");
    expect_near(advice.repairs, one.at("expected_repairs"), 1e-10, "repairs");
  }
}

TEST(Policies, InspectionsMatchPublished_T3_07) {
  const value& input = policy_cases().input("T3-07");
  const value& expected = policy_cases().expected("T3-07");
  const life::DelayTime model{number(input.at("lam")), number(input.at("mean")), number(input.at("db")),
                              number(input.at("di"))};
  const life::InspectionAdvice advice = life::advise_inspection(model);
  ASSERT_TRUE(advice.interval);
  expect_near(*advice.interval, expected.at("T"), 1e-5, "T");
  expect_near(advice.down, expected.at("downtime_fraction"), 1e-8, "down");
  expect_near(advice.breakdowns, expected.at("b_at_T"), 1e-5, "b");
  expect_near(advice.down_without, expected.at("no_inspection_limit"), 1e-8, "without");
  for (const auto& at : expected.at("at").as_object()) {
    expect_near(life::down_share(model, std::stod(std::string(at.key()))), at.value(), 1e-8, "down");
  }
}

TEST(Policies, TestsOfProtectiveDevicesMatchPublished_T3_08_T3_09) {
  for (const char* id : {"T3-08", "T3-09"}) {
    for (const value& one : policy_cases().expected(id).as_array()) {
      const life::Weibull device{number(one.at("beta")), number(one.at("eta"))};
      const double share = life::unprotected_share(device, number(one.at("T")));
      expect_near(share, one.at("mean_unavailability"), 1e-9, id);
      expect_near(life::test_interval(device, share), one.at("T"), 1e-9, id);
    }
  }
}

}  // namespace
}  // namespace hw::tests
