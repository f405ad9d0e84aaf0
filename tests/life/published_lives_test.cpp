// tests/published/t1_weibull.json: lives of parts, fitted and not.

#include <cmath>

#include <boost/json.hpp>
#include <gtest/gtest.h>

#include "libs/numerics/random.h"
#include "src/life/failure_rate.h"
#include "src/life/likelihood_bounds.h"
#include "src/life/other_fits.h"
#include "src/life/survival.h"
#include "src/life/turnbull.h"
#include "src/life/weibayes.h"
#include "src/life/weibull_fit.h"
#include "tests/life/near.h"

namespace hw::tests {
namespace {

using life::Observed;

const PublishedCases& life_cases() {
  static const PublishedCases cases("t1_weibull.json");
  return cases;
}

std::vector<Observed> lives_of(const value& rows) {
  std::vector<Observed> lives;
  for (const value& row : rows.as_array()) {
    const double upper = row.at("hi").is_null() ? life::never : number(row.at("hi"));
    lives.push_back({number(row.at("lo")), upper, number(row.at("count"))});
  }
  return lives;
}

std::vector<Observed> lives_of_status(const value& input) {
  std::vector<Observed> lives;
  const value* entry = input.as_object().if_contains("entry");
  const auto ends = numbers(input.at(entry != nullptr ? "exit" : "time"));
  for (std::size_t n = 0; n < ends.size(); ++n) {
    const bool failed = number(input.at("status").at(n)) == 1;
    lives.push_back({ends[n], failed ? ends[n] : life::never, 1, entry != nullptr ? number(entry->at(n)) : 0});
  }
  return lives;
}

struct Tolerances {
  double point = 1e-6, loglik = 1e-6, bounds = 1e-5, error = 1e-4;
};

Tolerances tolerances_of(const std::string& id) {
  Tolerances all{life_cases().tolerance(id, "point_rel"), 1e-6, life_cases().tolerance(id, "ci_rel"),
                 life_cases().tolerance(id, "se_rel")};
  if (id != "T1-12") all.loglik = life_cases().tolerance(id, "loglik_abs");
  return all;
}

void expect_bounds(const life::Bounds& bounds, const value& published, double relative, const std::string& what) {
  expect_near(bounds.lower, published.at(0), relative, what + " lower");
  expect_near(bounds.upper, published.at(1), relative, what + " upper");
}

void expect_quantiles(const life::WeibullLikelihood& likelihood, const life::WeibullFit& fit, const value& published,
                      const Tolerances& within, const std::string& id) {
  for (const value& one : published.as_array()) {
    const double p = number(one.at("p"));
    expect_near(life::quantile(fit.life, p), one.at("t"), within.point, id);
    expect_bounds(life::wald_quantile(fit, p, 0.95), one.at("wald95_log"), within.bounds, id + " Wald B");
    expect_bounds(life::likely_quantile(likelihood, fit, p, 0.95), one.at("lr95"), within.bounds, id + " B");
  }
}

void expect_fit(const std::string& id, const std::vector<Observed>& lives, const value& published) {
  const Tolerances within = tolerances_of(id);
  const life::WeibullLikelihood likelihood(lives);
  const auto fit = life::fit_weibull(likelihood);
  ASSERT_TRUE(fit) << id << fit.error().message;
  expect_near(fit->life.shape, published.at("shape"), within.point, id);
  expect_near(fit->life.scale, published.at("scale"), within.point, id);
  EXPECT_NEAR(fit->loglik, number(published.at("loglik")), within.loglik) << id;
  EXPECT_NEAR(fit->aic(), number(published.at("aic")), 2 * within.loglik) << id;
  expect_near(std::sqrt(fit->log_shape_variance), published.at("se_log_shape"), within.error, id);
  expect_near(std::sqrt(fit->log_scale_variance), published.at("se_log_scale"), within.error, id);
  EXPECT_NEAR(fit->log_covariance, number(published.at("cov_logscale_logshape")),
              within.error * std::sqrt(fit->log_shape_variance * fit->log_scale_variance))
      << id;
  expect_bounds(life::wald_shape(*fit, 0.95), published.at("wald95_log_shape"), within.bounds, id + " Wald shape");
  expect_bounds(life::likely_shape(likelihood, *fit, 0.95), published.at("lr95_shape"), within.bounds, id + " shape");
  expect_bounds(life::wald_quantile(*fit, -std::expm1(-1), 0.95), published.at("wald95_log_scale"), within.bounds, id);
  expect_bounds(life::likely_scale(likelihood, *fit, 0.95), published.at("lr95_scale"), within.bounds, id + " scale");
  expect_near(life::mean_life(fit->life), published.at("mean"), within.point, id);
  expect_near(life::life_spread(fit->life), published.at("sd"), within.point, id);
  expect_quantiles(likelihood, *fit, published.at("quantiles"), within, id);
}

TEST(Lives, TheWeibullFitMatchesPublished_T1) {
  for (const char* id : {"T1-01", "T1-03", "T1-04", "T1-06", "T1-08", "T1-10", "T1-14", "T1-15"}) {
    expect_fit(id, lives_of(life_cases().input(id)), life_cases().expected(id));
  }
}

TEST(Lives, AFitWithEntriesMatchesPublished_T1_12) {
  const value& expected = life_cases().expected("T1-12");
  std::vector<Observed> lives = lives_of_status(life_cases().input("T1-12"));
  expect_fit("T1-12", lives, expected.at("fit"));
  const auto steps = life::estimate_survival(lives, life::SurvivalScale::log_log, 0.95);
  ASSERT_TRUE(steps);
  ASSERT_EQ(steps->size(), expected.at("km").as_array().size());
  for (std::size_t n = 0; n < steps->size(); ++n) {
    EXPECT_EQ((*steps)[n].age, number(expected.at("km").at(n).at("time")));
    EXPECT_EQ((*steps)[n].at_risk, number(expected.at("km").at(n).at("at_risk")));
    expect_near((*steps)[n].survival, expected.at("km").at(n).at("surv"), 1e-9, "T1-12");
  }
  for (Observed& life : lives) life.entry = 0;
  const auto ignoring = life::fit_weibull(life::WeibullLikelihood(lives));
  expect_near(ignoring->life.shape, expected.at("ignoring_entry").at("shape"), 1e-5, "T1-12");
  expect_near(ignoring->life.scale, expected.at("ignoring_entry").at("scale"), 1e-5, "T1-12");
}

TEST(Lives, AReliabilityAndTheLognormalMatchPublished_T1_01) {
  const auto lives = lives_of(life_cases().input("T1-01"));
  const life::WeibullLikelihood likelihood(lives);
  const auto fit = life::fit_weibull(likelihood);
  const value& expected = life_cases().expected("T1-01");
  for (const value& one : expected.at("reliability").as_array()) {
    const double age = number(one.at("t"));
    expect_near(life::reliability(fit->life, age), one.at("R"), 1e-6, "R");
    expect_bounds(life::wald_reliability(*fit, age, 0.95), one.at("wald95_cloglog"), 1e-5, "R");
    // No likelihood-ratio interval is published: it must lie about the estimate, near the other one.
    const life::Bounds likely = life::likely_reliability(likelihood, *fit, age, 0.95);
    EXPECT_NEAR(likely.lower, number(one.at("wald95_cloglog").at(0)), 0.05);
    EXPECT_NEAR(likely.upper, number(one.at("wald95_cloglog").at(1)), 0.05);
  }
  const auto lognormal = life::fit_lognormal(lives);
  EXPECT_NEAR(lognormal->aic(), number(expected.at("lognormal_aic")), 2e-6);
  expect_near(lognormal->mu, expected.at("lognormal_mu"), 1e-6, "mu");
  expect_near(lognormal->sigma, expected.at("lognormal_sigma"), 1e-6, "sigma");
}

void expect_survival(const std::string& id) {
  using life::SurvivalScale;
  const auto lives = lives_of_status(life_cases().input(id));
  const value& expected = life_cases().expected(id);
  const std::pair<SurvivalScale, std::string> scales[] = {
      {SurvivalScale::log_log, "loglog"}, {SurvivalScale::log, "log"}, {SurvivalScale::plain, "plain"}};
  for (const auto& [scale, name] : scales) {
    const auto steps = life::estimate_survival(lives, scale, 0.95);
    ASSERT_TRUE(steps);
    ASSERT_EQ(steps->size(), expected.as_array().size());
    for (std::size_t n = 0; n < steps->size(); ++n) {
      const life::SurvivalStep& step = (*steps)[n];
      const value& one = expected.at(n);
      EXPECT_EQ(step.age, number(one.at("time")));
      EXPECT_EQ(step.at_risk, number(one.at("at_risk")));
      EXPECT_EQ(step.failures, number(one.at("events")));
      EXPECT_NEAR(step.survival, number(one.at("surv")), 1e-8);
      EXPECT_NEAR(step.se, number(one.at("greenwood_se")), 1e-8);
      EXPECT_NEAR(step.cumulative_hazard, number(one.at("nelson_aalen")), 1e-8);
      EXPECT_NEAR(step.lower.value(), number(one.at(name + "_lo")), 1e-8) << id << name;
      EXPECT_NEAR(step.upper.value(), number(one.at(name + "_hi")), 1e-8) << id << name;
    }
  }
}

TEST(Lives, KaplanMeierMatchesPublished_T1_02_T1_16) {
  expect_survival("T1-02");
  expect_survival("T1-16");
}

TEST(Lives, TheExponentialMatchesPublished_T1_05) {
  const value& input = life_cases().input("T1-05");
  const value& expected = life_cases().expected("T1-05");
  const double total = number(input.at("total_time")), failures = number(input.at("failures"));
  const auto timed = life::mean_between(total, failures, life::WatchEnd::at_a_time, 0.95);
  const auto failed = life::mean_between(total, failures, life::WatchEnd::at_a_failure, 0.95);
  expect_near(*timed.mean, expected.at("mttf"), 1e-9, "mean");
  expect_bounds({timed.lower, *timed.upper}, expected.at("ci95_time_censored"), 1e-9, "time");
  expect_bounds({failed.lower, *failed.upper}, expected.at("ci95_failure_censored"), 1e-9, "failure");
  const auto fit = life::fit_exponential(life::WeibullLikelihood(lives_of(life_cases().input("T1-04"))));
  expect_near(fit->mean, expected.at("mttf"), 1e-9, "mean");
  expect_near(fit->loglik, expected.at("loglik"), 1e-9, "loglik");
}

TEST(Lives, TurnbullMatchesPublished_T1_07_T1_08) {
  const value& input = life_cases().input("T1-07");
  const auto looks = numbers(input.at("hours"));
  std::vector<Observed> lives;
  for (std::size_t n = 0; n < looks.size(); ++n) {
    const double failed = number(input.at("failed").at(n));
    const double good = number(input.at("inspected").at(n)) - failed;
    if (failed > 0) lives.push_back({0, looks[n], failed});
    if (good > 0) lives.push_back({looks[n], life::never, good});
  }
  const auto wheels = life::estimate_turnbull(lives);
  ASSERT_TRUE(wheels) << wheels.error().message;
  ASSERT_EQ(wheels->survival.size(), looks.size());
  for (std::size_t n = 0; n < looks.size(); ++n) {
    EXPECT_EQ(wheels->survival[n].age, looks[n]);
    EXPECT_NEAR(1 - wheels->survival[n].survival, number(life_cases().expected("T1-07").at("F").at(n)), 1e-6)
        << looks[n];
  }
  // Of 167 parts with the same looks the estimate is the counts' own shares, R's survfit printed them.
  const auto parts = life::estimate_turnbull(lives_of(life_cases().input("T1-08")));
  const double good[] = {162, 146, 134, 116, 98, 96, 90, 73};
  for (std::size_t n = 0; n < 8; ++n) EXPECT_NEAR(parts->survival[n].survival, good[n] / 167, 1e-9);
}

TEST(Lives, AnAssumedShapeMatchesPublished_T1_09) {
  std::vector<Observed> lives;
  for (const double age : numbers(life_cases().input("T1-09").at("times"))) lives.push_back({age});
  for (const value& one : life_cases().expected("T1-09").as_array()) {
    const auto assumed = life::assume_shape(lives, number(one.at("beta")), number(one.at("conf")));
    ASSERT_TRUE(assumed);
    EXPECT_FALSE(assumed->scale);
    expect_near(assumed->scale_lower, one.at("eta_lower"), 1e-10, "T1-09");
  }
}

TEST(Lives, WhatTheyCannotSayIsRefusedAsPublished_T1_11) {
  const char* reasons[] = {"rises without end", "rises without end", "no failure"};
  for (std::size_t n = 0; n < 3; ++n) {
    const value& input = life_cases().input("T1-11").at(n);
    std::vector<Observed> lives;
    for (const double age : numbers(input.at("exact"))) lives.push_back({age, age});
    for (const double age : numbers(input.at("right"))) lives.push_back({age});
    const auto fit = life::fit_weibull(life::WeibullLikelihood(lives));
    ASSERT_FALSE(fit);
    EXPECT_NE(fit.error().message.find(reasons[n]), std::string::npos) << fit.error().message;
  }
}

TEST(Lives, TheBiasOfTheShapeMatchesPublished_T1_13) {
  numerics::Random random(20261113);
  const auto sizes = numbers(life_cases().input("T1-13").at("n"));
  const auto ratios = numbers(life_cases().expected("T1-13").at("mean_ratio"));
  constexpr int samples = 20000;
  for (std::size_t k = 0; k < sizes.size(); ++k) {
    std::vector<Observed> lives(static_cast<std::size_t>(sizes[k]));
    life::WeibullLikelihood likelihood(lives);
    double sum = 0, squares = 0;
    for (int sample = 0; sample < samples; ++sample) {
      for (Observed& life : lives) life.lower = life.upper = -std::log(random.uniform());
      likelihood.take(lives);
      const double shape = life::fit_weibull(likelihood)->life.shape;
      sum += shape;
      squares += shape * shape;
    }
    const double mean = sum / samples;
    const double error = std::sqrt((squares / samples - mean * mean) / samples);
    EXPECT_NEAR(mean, ratios[k], 4 * error + 0.006) << sizes[k];
  }
}

}  // namespace
}  // namespace hw::tests
