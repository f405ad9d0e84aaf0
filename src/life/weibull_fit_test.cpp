#include "src/life/weibull_fit.h"

#include <cmath>

#include <gtest/gtest.h>

#include "libs/numerics/random.h"
#include "src/life/likelihood_bounds.h"
#include "src/life/other_fits.h"
#include "src/life/weibayes.h"

namespace hw::life {
namespace {

// Lives of a Weibull distribution, seen in every way there is.
std::vector<Observed> seen_lives(numerics::Random& random, std::size_t count, const Weibull& life) {
  std::vector<Observed> lives;
  while (lives.size() < count) {
    const double age = quantile(life, random.uniform());
    const double look = life.scale * random.between(0.2, 1.5);
    switch (random.whole_between(0, 4)) {
      case 0:
        lives.push_back(age < look ? Observed{0, look} : Observed{look});
        break;
      case 1:
        lives.push_back({0.8 * age, 1.3 * age});
        break;
      case 2: {
        const double entry = life.scale * random.between(0, 0.5);
        if (age > entry) lives.push_back({age, age, 1, entry});
        break;
      }
      default:
        lives.push_back(age < look ? Observed{age, age} : Observed{look});
    }
  }
  return lives;
}

template <class Check>
void for_seen_lives(const Check& check) {
  numerics::Random random(77);
  for (int n = 0; n < 60; ++n) {
    const Weibull life{random.log_between(0.4, 6), random.log_between(1e-3, 1e6)};
    const auto lives = seen_lives(random, static_cast<std::size_t>(random.whole_between(8, 60)), life);
    const WeibullLikelihood likelihood(lives);
    const auto fit = fit_weibull(likelihood);
    ASSERT_TRUE(fit) << n << ": " << fit.error().message;
    check(lives, likelihood, *fit);
  }
}

TEST(WeibullFit, Property_NoOtherPointIsLikelier) {
  numerics::Random random(5);
  for_seen_lives([&](const auto&, const WeibullLikelihood& likelihood, const WeibullFit& fit) {
    for (int n = 0; n < 20; ++n) {
      const double far = random.log_between(1e-4, 1);
      const Weibull other{fit.life.shape * std::exp(far * random.normal()),
                          fit.life.scale * std::exp(far * random.normal())};
      EXPECT_LE(likelihood.at(likelihood.line(other)).value, fit.loglik + 1e-9);
    }
  });
}

TEST(WeibullFit, Property_BoundsContainTheEstimateAndWidenWithConfidence) {
  for_seen_lives([](const auto&, const WeibullLikelihood& likelihood, const WeibullFit& fit) {
    const auto check = [](double estimate, const Bounds& narrow, const Bounds& wide) {
      EXPECT_LT(narrow.lower, estimate);
      EXPECT_GT(narrow.upper, estimate);
      EXPECT_LT(wide.lower, narrow.lower);
      EXPECT_GT(wide.upper, narrow.upper);
    };
    check(fit.life.shape, likely_shape(likelihood, fit, 0.8), likely_shape(likelihood, fit, 0.95));
    check(fit.life.scale, likely_scale(likelihood, fit, 0.8), likely_scale(likelihood, fit, 0.95));
    check(quantile(fit.life, 0.1), likely_quantile(likelihood, fit, 0.1, 0.8),
          likely_quantile(likelihood, fit, 0.1, 0.95));
    const double age = 0.7 * fit.life.scale;
    check(reliability(fit.life, age), likely_reliability(likelihood, fit, age, 0.8),
          likely_reliability(likelihood, fit, age, 0.95));
  });
}

// The likelihood at a bound of the shape, with the level free, is what the confidence says.
TEST(WeibullFit, Property_TheProfileAtABoundHasFallenByChiSquare) {
  for_seen_lives([](const auto&, const WeibullLikelihood& likelihood, const WeibullFit& fit) {
    const Bounds bounds = likely_shape(likelihood, fit, 0.95);
    for (const double slope : {bounds.lower, bounds.upper}) {
      double level = fit.line.level;
      for (int n = 0; n < 200; ++n) {
        const Terms at = likelihood.at({slope, level});
        level -= std::clamp(at.by_level / at.by_level2, -1.0, 1.0);
      }
      EXPECT_NEAR(2 * (fit.loglik - likelihood.at({slope, level}).value), 3.841458820694, 1e-7);
    }
  });
}

TEST(WeibullFit, Property_OtherUnitsScaleTheScaleAndKeepTheShape) {
  for_seen_lives([](std::vector<Observed> lives, const WeibullLikelihood&, const WeibullFit& fit) {
    for (Observed& life : lives) {
      life.lower *= 3600;
      life.upper *= 3600;
      life.entry *= 3600;
    }
    const auto other = fit_weibull(WeibullLikelihood(lives));
    EXPECT_NEAR(other->life.shape / fit.life.shape, 1, 1e-9);
    EXPECT_NEAR(other->life.scale / fit.life.scale, 3600, 3600e-9);
    EXPECT_NEAR(other->log_shape_variance / fit.log_shape_variance, 1, 1e-7);
  });
}

TEST(WeibullFit, Property_CountsAreAsGoodAsRepetition) {
  for_seen_lives([](std::vector<Observed> lives, const WeibullLikelihood&, const WeibullFit& fit) {
    for (Observed& life : lives) life.count = 3;
    const auto thrice = fit_weibull(WeibullLikelihood(lives));
    EXPECT_NEAR(thrice->life.shape / fit.life.shape, 1, 1e-9);
    EXPECT_NEAR(thrice->loglik, 3 * fit.loglik, 1e-7);
    EXPECT_NEAR(thrice->log_scale_variance * 3 / fit.log_scale_variance, 1, 1e-7);
  });
}

std::string refusal(const std::vector<Observed>& lives) {
  const auto fit = fit_weibull(WeibullLikelihood(lives));
  return fit ? fmt::format("shape {}", fit->life.shape) : fit.error().message;
}

TEST(WeibullFit, WhatTheLivesCannotSayIsRefusedWithItsReason) {
  const auto expect = [](const std::vector<Observed>& lives, const std::string& reason) {
    EXPECT_NE(refusal(lives).find(reason), std::string::npos) << refusal(lives);
  };
  expect({{100}, {200}}, "no failure");
  expect({{700, 700, 3}}, "rises without end");
  expect({{700, 700}, {0, 800}, {600, 700}}, "rises without end");
  expect({{0, 10}}, "no Weibull fit");
  expect({{0, 10, 5}, {20, never, 5}}, "no Weibull fit");  // all failed by 10, and none by 20
  expect({{0, 10, 4}, {10, never, 1}, {0, 20, 1}, {20, never, 4}}, "shape falls to 0");
  expect({{5, 6}, {5, 6}}, "no");
}

TEST(WeibullFit, OneFailureThatOthersOutlivedIsEnough) {
  EXPECT_TRUE(fit_weibull(WeibullLikelihood(std::vector<Observed>{{700, 700}, {701}})));
}

// The rounding of a sum of a million terms is greater than what the last steps gain.
TEST(WeibullFit, AMillionLivesAreFittedDespiteTheirRounding) {
  numerics::Random random(1);
  std::vector<Observed> lives(1000000);
  for (Observed& life : lives) {
    const double age = quantile({2, 1000}, random.uniform());
    life = age < 1200 ? Observed{age, age} : Observed{1200};
  }
  const WeibullLikelihood likelihood(lives);
  const auto fit = fit_weibull(likelihood);
  ASSERT_TRUE(fit) << fit.error().message;
  EXPECT_NEAR(fit->life.shape, 2, 0.01);
  const Bounds shape = likely_shape(likelihood, *fit, 0.95), wald = wald_shape(*fit, 0.95);
  EXPECT_NEAR(shape.lower, wald.lower, 1e-5);
  EXPECT_NEAR(shape.upper, wald.upper, 1e-5);
}

TEST(WeibullFit, SmallSamplesAreCautionedAgainst) {
  const std::vector<Observed> lives = {{100, 100}, {140, 140}, {180, 180}, {230, 230}, {300, 300}};
  const WeibullLikelihood likelihood(lives);
  const auto fit = fit_weibull(likelihood);
  const auto cautions = cautions_of(*fit, likely_shape(likelihood, *fit, 0.95));
  ASSERT_FALSE(cautions.empty());
  EXPECT_NE(cautions.front().says.find("1.44 times"), std::string::npos) << cautions.front().says;
}

TEST(OtherFits, AreTheClosedFormsForCompleteLives) {
  const std::vector<Observed> lives = {{2, 2}, {3, 3}, {5, 5}, {11, 11}};
  const auto exponential = fit_exponential(WeibullLikelihood(lives));
  EXPECT_NEAR(exponential->mean, 5.25, 1e-10);
  double mu = 0, squares = 0;
  for (const Observed& life : lives) mu += std::log(life.lower) / 4;
  for (const Observed& life : lives) squares += std::pow(std::log(life.lower) - mu, 2) / 4;
  const auto lognormal = fit_lognormal(lives);
  EXPECT_NEAR(lognormal->mu, mu, 1e-10);
  EXPECT_NEAR(lognormal->sigma, std::sqrt(squares), 1e-10);
}

TEST(OtherFits, WithoutAFailureAreRefused) {
  const std::vector<Observed> lives = {{2}, {3}};
  EXPECT_FALSE(fit_exponential(WeibullLikelihood(lives)));
  EXPECT_FALSE(fit_lognormal(lives));
  EXPECT_FALSE(fit_exponential(WeibullLikelihood(std::vector<Observed>{{0, 4}, {0, 5}})));
}

TEST(Weibayes, OfShapeOneIsTheChiSquareBoundOfTheMean) {
  const std::vector<Observed> lives = {{500, 500}, {700}, {800}};
  const auto assumed = assume_shape(lives, 1, 0.9);
  EXPECT_NEAR(*assumed->scale, 2000, 1e-9);
  EXPECT_NEAR(assumed->scale_lower, 2 * 2000 / 7.77944033973486, 1e-8);  // qchisq(0.9, 4)
  EXPECT_FALSE(assume_shape(std::vector<Observed>{{3, 5}}, 1, 0.9));
}

}  // namespace
}  // namespace hw::life
