#include "src/due/use_level.h"

#include <cmath>

#include <gtest/gtest.h>

#include "libs/numerics/random.h"

namespace hw::due {
namespace {

// So many weeks with a level that wanders as the hypothesis says.
BlockRun wandering(const Hypothesis& h, std::size_t weeks, std::uint64_t seed) {
  numerics::Random random(seed);
  BlockRun run{{}, 7.0 * static_cast<double>(weeks), 0};
  const double variance = 4 * h.unrest / h.memory_days * 0.1, kept = std::exp(-7 / h.memory_days);
  double u = std::sqrt(variance) * random.normal();
  for (std::size_t week = 0; week < weeks; ++week) {
    u = kept * u + std::sqrt(variance * (1 - kept * kept)) * random.normal();
    const double rate = 1 + u + std::sqrt(0.1 / 7) * random.normal();
    run.blocks.push_back({7.0 * static_cast<double>(week) + 3.5, 7, 7 * rate, 1, 0});
  }
  return run;
}

TEST(UseLevel, ASteadyLevelIsFoundToItsStandardError) {
  const BlockRun run = wandering({100, 1e-9, false, 0}, 100, 1);
  const LevelBelief belief = learn_level({100, 0, false, 0}, run, {});
  EXPECT_NEAR(belief.mean[1], 1, 3 * std::sqrt(0.1 / 700));
  EXPECT_NEAR(std::sqrt(belief.spread[1][1]), std::sqrt(0.1 / 700), 0.004);
  EXPECT_NEAR(belief.noise, 0.1, 0.05);
}

TEST(UseLevel, TheEvidencePrefersWhatMadeTheHistory) {
  const Hypothesis calm{100, 0, false, 0}, restless{45, 5, false, 0};
  const BlockRun steady = wandering({100, 1e-9, false, 0}, 100, 2), unsteady = wandering(restless, 100, 2);
  const auto evidence = [](const Hypothesis& h, const BlockRun& run) { return learn_level(h, run, {}).log_evidence; };
  EXPECT_GT(evidence(calm, steady), evidence(restless, steady) + 2);
  EXPECT_GT(evidence(restless, unsteady), evidence(calm, unsteady) + 2);
}

TEST(UseLevel, ADeviationFadesAndUncertaintyGrows) {
  const Hypothesis h{45, 5, false, 0};
  BlockRun run = wandering(h, 100, 3);
  for (std::size_t n = 94; n < 100; ++n) run.blocks[n].used = 14;
  const LevelBelief belief = learn_level(h, run, {});
  const RateAhead week = rate_ahead(belief, run, 7), year = rate_ahead(belief, run, 365);
  EXPECT_GT(week.mean, 1.5);
  EXPECT_LT(year.mean, 0.4 * week.mean + 0.6 * belief.mean[1] + 0.1);
  EXPECT_GT(rate_ahead(belief, run, 45).level_variance, week.level_variance);
}

// The mean rate over the days ahead, a path of the level at a time, in steps of a fifth of a day.
double simulated_mean_rate(const LevelBelief& b, int days, numerics::Random& random) {
  constexpr int steps = 5;
  const Hypothesis& h = b.hypothesis;
  const double first = random.normal();
  double u = b.mean[0] + std::sqrt(b.spread[0][0]) * first;
  const double tied = b.spread[0][1] / std::sqrt(b.spread[0][0]);
  double m = b.mean[1] + tied * first + std::sqrt(b.spread[1][1] - tied * tied) * random.normal();
  const double kept = std::exp(-1.0 / steps / h.memory_days);
  const double wander = std::sqrt(4 * h.unrest / h.memory_days * b.noise * (1 - kept * kept));
  double sum = 0;
  for (int step = 0; step < days * steps; ++step) {
    u = kept * u + wander * random.normal();
    m += std::sqrt(h.drift * b.noise / steps) * random.normal();
    sum += u + m;
  }
  return sum / (days * steps);
}

TEST(UseLevel, TheClosedFormsOfTheDaysAheadAreWhatASeededSimulationFinds) {
  const Hypothesis h{45, 5, false, 6e-4};
  const BlockRun run = wandering(h, 60, 4);
  const LevelBelief belief = learn_level(h, run, {});
  numerics::Random random(20261126);
  for (const int days : {7, 60, 200}) {
    constexpr int paths = 4000;
    double sum = 0, squares = 0;
    for (int path = 0; path < paths; ++path) {
      const double rate = simulated_mean_rate(belief, days, random);
      sum += rate;
      squares += rate * rate;
    }
    const double mean = sum / paths, variance = squares / paths - mean * mean;
    const RateAhead ahead = rate_ahead(belief, run, days);
    EXPECT_NEAR(ahead.mean, mean, 4 * std::sqrt(variance / paths)) << days;
    EXPECT_NEAR(ahead.level_variance / variance, 1, 0.08) << days;
  }
}

TEST(UseLevel, ASeasonIsFollowedThroughTheYear) {
  BlockRun run{{}, 730, 0};
  for (double day = 3.5; day < 730; day += 7) {
    const double angle = radians_per_day * day;
    run.blocks.push_back({day, 7, 7 * (1 + 0.5 * std::cos(angle)), std::cos(angle), std::sin(angle)});
  }
  const LevelBelief belief = learn_level({100, 0, true, 0}, run, {});
  EXPECT_GT(rate_ahead(belief, run, 28).mean, 1.35);
  EXPECT_NEAR(rate_ahead(belief, run, 365).mean, 1, 0.05);
}

}  // namespace
}  // namespace hw::due
