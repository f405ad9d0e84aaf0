#include <cmath>

#include <gtest/gtest.h>

#include "libs/numerics/random.h"
#include "src/life/age_replacement.h"
#include "src/life/believed_lives.h"
#include "src/life/block_replacement.h"
#include "src/life/inspection.h"
#include "src/life/renewals.h"

namespace hw::life {
namespace {

TEST(AgeReplacement, Property_NoOtherIntervalCostsLess) {
  numerics::Random random(8);
  for (int n = 0; n < 200; ++n) {
    const Weibull life{random.log_between(0.5, 8), random.log_between(1e-2, 1e5)};
    const ReplacementCosts costs{random.log_between(1, 100), random.log_between(1, 5000)};
    const AgeAdvice advice = advise_age(life, costs);
    EXPECT_LE(advice.cost_rate, advice.run_to_failure);
    for (int k = 0; k < 20; ++k) {
      const double age = life.scale * random.log_between(1e-3, 30);
      EXPECT_GE(age_cost_rate(life, costs, age), advice.cost_rate * (1 - 1e-9));
    }
  }
}

TEST(AgeReplacement, PartsThatDoNotWearOutRunToFailure) {
  EXPECT_FALSE(advise_age({1, 100}, {1, 1000}).interval);
  EXPECT_FALSE(advise_age({3, 100}, {10, 10}).interval);
  EXPECT_EQ(advise_age({3, 100}, {10, 10}).saving, 0);
}

TEST(Renewals, OfShapeOneAreEven) {
  for (const double age : {10.0, 100.0, 900.0}) {
    const Renewals renewals = renewals_by({1, 100}, age);
    EXPECT_NEAR(renewals.expected, age / 100, 1e-7);
    EXPECT_NEAR(renewals.density, 0.01, 1e-9);
  }
  EXPECT_EQ(renewals_by({2, 100}, 0).expected, 0);
}

TEST(BlockReplacement, CostsLeastAtItsInterval) {
  const Weibull life{2.5, 1000};
  const ReplacementCosts costs{1, 8};
  const BlockAdvice advice = advise_block(life, costs);
  ASSERT_TRUE(advice.interval);
  for (const double factor : {0.5, 0.9, 1.1, 1.5, 3.0}) {
    EXPECT_GT(block_cost_rate(life, costs, factor * *advice.interval), advice.cost_rate);
  }
  EXPECT_GE(advice.cost_rate, advise_age(life, costs).cost_rate);  // it also replaces new parts
}

TEST(BlockReplacement, OfASteepLifeComesJustBeforeItEnds) {
  const BlockAdvice advice = advise_block({50, 1000}, {1, 20});
  ASSERT_TRUE(advice.interval);
  EXPECT_NEAR(*advice.interval / *advise_age({50, 1000}, {1, 20}).interval, 1, 0.02);
}

TEST(BlockReplacement, IsNotAdvisedWhereItSavesNothing) {
  EXPECT_FALSE(advise_block({0.9, 1000}, {1, 100}).interval);
  EXPECT_FALSE(advise_block({1.2, 1000}, {1, 1.5}).interval);
}

TEST(Overhaul, IsNotAdvisedForMachinesThatDoNotWear) { EXPECT_FALSE(advise_overhaul({1, 100}, {10, 1}).interval); }

TEST(Inspection, IsNotAdvisedWhereItTakesLongerThanItSaves) {
  EXPECT_FALSE(advise_inspection({0.001, 50, 1, 2}).interval);
}

TEST(Inspection, CostsLeastAtItsInterval) {
  const DelayTime model{0.01, 200, 8, 0.5};
  const InspectionAdvice advice = advise_inspection(model);
  ASSERT_TRUE(advice.interval);
  for (const double factor : {0.2, 0.8, 1.2, 5.0}) EXPECT_GT(down_share(model, factor * *advice.interval), advice.down);
}

TEST(ProtectiveDevice, AShortIntervalKeepsItsDigits) {
  EXPECT_NEAR(unprotected_share({1, 1e6}, 1) / 0.5e-6, 1, 1e-6);
  EXPECT_NEAR(unprotected_share({2, 100}, 31.6), unprotected_share({2, 100}, 31.63), 1e-3);  // where the forms meet
}

std::vector<Observed> worn_parts() {
  return {{700, 700}, {950, 950}, {1100, 1100}, {1350, 1350}, {1500, 1500}, {1500, never, 3}};
}

TEST(BelievedLives, AreWeighedAroundTheLikeliest) {
  const WeibullLikelihood likelihood(worn_parts());
  const auto fit = fit_weibull(likelihood);
  const auto believed = believed_lives(likelihood, *fit);
  ASSERT_TRUE(believed);
  double sum = 0, log_shape = 0, log_scale = 0;
  for (const Believed& one : *believed) {
    sum += one.share;
    log_shape += one.share * std::log(one.life.shape);
    log_scale += one.share * std::log(one.life.scale);
  }
  EXPECT_NEAR(sum, 1, 1e-5);
  EXPECT_NEAR(log_shape, std::log(fit->life.shape), 0.3);
  EXPECT_NEAR(log_scale, std::log(fit->life.scale), 0.2);
}

// The exact integral for complete exponential-like data is out of reach; a grid four times as fine must agree instead.
// Here the mean of the cost is held against lives drawn from the same belief by chance.
TEST(BelievedLives, TheirExpectedCostIsTheMeanOverTheLikelihood) {
  const WeibullLikelihood likelihood(worn_parts());
  const auto fit = fit_weibull(likelihood);
  const auto believed = believed_lives(likelihood, *fit);
  const ReplacementCosts costs{100, 900};
  numerics::Random random(12);
  double sum = 0, weight = 0;
  for (int n = 0; n < 40000; ++n) {
    const Weibull life{random.log_between(0.2, 25), random.log_between(500, 12000)};
    const double share = std::exp(likelihood.at(likelihood.line(life)).value - fit->loglik);
    if (!(share > 1e-9)) continue;
    sum += share * age_cost_rate(life, costs, 800);
    weight += share;
  }
  EXPECT_NEAR(expected_cost_rate(*believed, costs, 800) / (sum / weight), 1, 0.03);
}

TEST(BelievedLives, AdviceCostsLeastAndAMoveThereSaves) {
  const WeibullLikelihood likelihood(worn_parts());
  const auto believed = believed_lives(likelihood, *fit_weibull(likelihood));
  const ReplacementCosts costs{100, 900};
  const BelievedAdvice advice = advise_age(*believed, costs);
  ASSERT_TRUE(advice.interval);
  for (const double factor : {0.3, 0.9, 1.1, 3.0}) {
    EXPECT_GT(expected_cost_rate(*believed, costs, factor * *advice.interval), advice.cost_rate);
  }
  EXPECT_LE(advice.best_5, advice.best_50);
  EXPECT_LE(advice.best_50, advice.best_95);
  const Move move = judge_move(*believed, costs, 3 * *advice.interval, *advice.interval);
  EXPECT_NEAR(move.saving, expected_cost_rate(*believed, costs, 3 * *advice.interval) - advice.cost_rate, 1e-6);
  EXPECT_GT(move.chance, 0.5);
  EXPECT_LT(move.saving_5, move.saving_95);
  EXPECT_EQ(judge_move(*believed, costs, 500, 500).chance, 0);
}

TEST(BelievedLives, OneFailureIsTooFew) {
  const WeibullLikelihood likelihood(std::vector<Observed>{{700, 700}, {900}});
  EXPECT_FALSE(believed_lives(likelihood, *fit_weibull(likelihood)));
}

}  // namespace
}  // namespace hw::life
