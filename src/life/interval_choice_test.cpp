#include "src/life/interval_choice.h"

#include <cmath>
#include <random>

#include <gtest/gtest.h>

namespace hw::life {
namespace {

// Parts of that distribution, each replaced at `interval` where it had not failed before.
std::vector<Observed> lives_under(const Weibull& life, double interval, int count) {
  std::mt19937 random(7);
  std::uniform_real_distribution<double> share(1e-9, 1 - 1e-9);
  std::vector<Observed> lives;
  for (int i = 0; i < count; ++i) {
    const double age = quantile(life, share(random));
    lives.push_back(age < interval ? Observed{.lower = age, .upper = age} : Observed{.lower = interval});
  }
  return lives;
}

std::vector<Believed> believed_of(const std::vector<Observed>& lives) {
  const WeibullLikelihood likelihood(lives);
  return *believed_lives(likelihood, *fit_weibull(likelihood));
}

constexpr ReplacementCosts part_costs{100, 2000};

TEST(IntervalChoice, ShortensAnIntervalThatLetsTooManyFail) {
  const Weibull truth{3, 1000};
  const auto believed = believed_of(lives_under(truth, 1200, 200));
  const IntervalChoice choice = choose_interval(believed, part_costs, 1200, 1200);
  EXPECT_FALSE(choice.is_held_back);
  EXPECT_NEAR(choice.interval, *advise_age(truth, part_costs).interval, 60);
  EXPECT_LT(choice.rate_then, choice.rate_now);
  EXPECT_GT(choice.move.chance, 0.99);
}

TEST(IntervalChoice, GoesNoFurtherInOneMoveThanTheLivesHaveShown) {
  const auto believed = believed_of(lives_under({3, 1000}, 250, 400));
  const IntervalChoice choice = choose_interval(believed, {100, 200}, 150, 250);
  ASSERT_TRUE(choice.is_held_back);
  EXPECT_EQ(choice.interval, 310);  // a quarter beyond 250, to two digits
}

TEST(IntervalChoice, LeavesAnIntervalAloneThatIsAsGood) {
  const Weibull truth{3, 1000};
  const auto believed = believed_of(lives_under(truth, 5000, 300));
  const double best = *advise_age(believed, part_costs).interval;
  const IntervalChoice choice = choose_interval(believed, part_costs, best, 5000);
  EXPECT_EQ(choice.interval, best);
  EXPECT_EQ(choice.rate_now, choice.rate_then);
  EXPECT_EQ(choice.move.saving, 0);
}

TEST(IntervalChoice, OfPartsThatDoNotWearOutIsRunToFailureStepByStep) {
  const auto believed = believed_of(lives_under({0.5, 1000}, 500, 300));
  const IntervalChoice choice = choose_interval(believed, {100, 150}, 500, 500);
  EXPECT_FALSE(choice.best.has_value());
  EXPECT_TRUE(choice.is_held_back);
  EXPECT_EQ(choice.interval, 620);
}

TEST(IntervalChoice, IsNeverMovedTheOtherWayByRounding) {
  const auto believed = believed_of(lives_under({0.5, 1000}, 500, 300));
  const IntervalChoice choice = choose_interval(believed, {100, 150}, 1090, 800);
  ASSERT_FALSE(choice.best.has_value());
  EXPECT_EQ(choice.interval, 1090) << "longer would be better, and 1000 is not longer";
}

TEST(IntervalChoice, IsRoundedDownToTwoDigits) {
  EXPECT_DOUBLE_EQ(rounded_down(1684), 1600);
  EXPECT_DOUBLE_EQ(rounded_down(1600), 1600);
  EXPECT_DOUBLE_EQ(rounded_down(0.0389), 0.038);
  EXPECT_DOUBLE_EQ(rounded_down(99), 99);
}

}  // namespace
}  // namespace hw::life
