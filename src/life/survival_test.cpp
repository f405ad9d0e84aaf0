#include "src/life/survival.h"

#include <gtest/gtest.h>

#include "libs/numerics/random.h"
#include "src/life/turnbull.h"

namespace hw::life {
namespace {

TEST(Survival, FailuresComeBeforePartsTakenOutAtTheSameAge) {
  const std::vector<Observed> lives = {{5, 5}, {5}, {9, 9}};
  const auto steps = estimate_survival(lives, SurvivalScale::log_log, 0.95);
  ASSERT_EQ(steps->size(), 2u);
  EXPECT_EQ(steps->front().at_risk, 3);
  EXPECT_NEAR(steps->front().survival, 2.0 / 3, 1e-15);
  EXPECT_EQ(steps->back().survival, 0);
  EXPECT_FALSE(steps->back().lower);  // of nothing left nothing can be said
}

TEST(Survival, LivesBetweenLooksAreForTurnbull) {
  EXPECT_FALSE(estimate_survival(std::vector<Observed>{{3, 5}}, SurvivalScale::plain, 0.95));
}

TEST(Turnbull, Property_OfKnownAgesIsKaplanMeier) {
  numerics::Random random(3);
  for (int n = 0; n < 20; ++n) {
    std::vector<Observed> lives;
    for (int k = 0; k < 30; ++k) {
      const double age = random.whole_between(1, 40);
      lives.push_back(random.chance(0.6) ? Observed{age, age} : Observed{age});
    }
    const auto steps = estimate_survival(lives, SurvivalScale::log, 0.95);
    const auto turnbull = estimate_turnbull(lives);
    ASSERT_TRUE(turnbull) << turnbull.error().message;
    for (const SurvivalStep& step : *steps) {
      const auto same = std::find_if(turnbull->survival.begin(), turnbull->survival.end(),
                                     [&](const SurvivalAt& at) { return at.age == step.age; });
      EXPECT_NEAR(same->survival, step.survival, 1e-7);
    }
  }
}

// What it claims, held against the definition: no mass could be raised at the cost of the others.
TEST(Turnbull, Property_FallsAndCannotBeImproved) {
  numerics::Random random(4);
  for (int n = 0; n < 20; ++n) {
    std::vector<Observed> lives;
    for (int k = 0; k < 40; ++k) {
      const double lower = random.whole_between(0, 20), width = random.whole_between(1, 15);
      lives.push_back(random.chance(0.3) && lower > 0 ? Observed{lower} : Observed{lower, lower + width});
    }
    const auto turnbull = estimate_turnbull(lives);
    ASSERT_TRUE(turnbull) << turnbull.error().message;
    double before = 1, sum = 0;
    for (const SurvivalAt& at : turnbull->survival) {
      EXPECT_LE(at.survival, before + 1e-15);
      before = at.survival;
    }
    for (const Mass& mass : turnbull->masses) {
      double rise = 0;
      for (const Observed& life : lives) {
        double chance = 0;
        for (const Mass& other : turnbull->masses) {
          if (other.after >= life.lower && other.by <= life.upper) chance += other.probability;
        }
        if (mass.after >= life.lower && mass.by <= life.upper) rise += 1 / chance;
      }
      EXPECT_LE(rise / 40, 1 + 1e-9);
      sum += mass.probability;
    }
    EXPECT_NEAR(sum, 1, 1e-12);
  }
}

TEST(Turnbull, ASingleLifeAmongAMillionDoesNotKeepItFromSettling) {
  const std::vector<Observed> lives = {{488, never, 1}, {754, 754, 1000000}, {0, 75389, 1}};
  const auto turnbull = estimate_turnbull(lives);
  ASSERT_TRUE(turnbull) << turnbull.error().message;
  EXPECT_NEAR(turnbull->masses.front().probability, 1, 1e-6);
}

TEST(Turnbull, RefusesEntries) {
  EXPECT_FALSE(estimate_turnbull(std::vector<Observed>{{3, 5, 1, 2}}));
  EXPECT_FALSE(estimate_turnbull({}));
}

}  // namespace
}  // namespace hw::life
