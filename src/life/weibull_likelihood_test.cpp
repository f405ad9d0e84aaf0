#include "src/life/weibull_likelihood.h"

#include <cmath>

#include <gtest/gtest.h>

namespace hw::life {
namespace {

// One life of every kind.
const Observed of_every_kind[] = {{5, 5, 2}, {7, never, 3, 1}, {0, 4, 5}, {2, 9}, {6, 6, 1, 3}, {4, 4.001, 2}};

TEST(WeibullLikelihood, IsTheProductOfDensitiesAndReliabilities) {
  const Weibull life{1.7, 6};
  const auto r = [&](double age) { return reliability(life, age); };
  const auto density = [&](double age) { return hazard(life, age) * r(age); };
  const double expected = 2 * std::log(density(5)) + 3 * std::log(r(7) / r(1)) + 5 * std::log(1 - r(4)) +
                          std::log(r(2) - r(9)) + std::log(density(6) / r(3)) + 2 * std::log(r(4) - r(4.001));
  const WeibullLikelihood likelihood(of_every_kind);
  EXPECT_NEAR(likelihood.at(likelihood.line(life)).value, expected, 1e-9);
}

TEST(WeibullLikelihood, DerivativesAreThoseOfTheValue) {
  const WeibullLikelihood likelihood(of_every_kind);
  const double h = 1e-5;
  const auto at = [&](double slope, double level) { return likelihood.at({slope, level}); };
  for (const Line line : {Line{0.6, -0.3}, Line{2.1, 0.4}}) {
    const Terms here = at(line.slope, line.level);
    const Terms up = at(line.slope + h, line.level), down = at(line.slope - h, line.level);
    const Terms above = at(line.slope, line.level + h), below = at(line.slope, line.level - h);
    EXPECT_NEAR(here.by_slope, (up.value - down.value) / (2 * h), 1e-5);
    EXPECT_NEAR(here.by_level, (above.value - below.value) / (2 * h), 1e-5);
    EXPECT_NEAR(here.by_slope2, (up.by_slope - down.by_slope) / (2 * h), 1e-4);
    EXPECT_NEAR(here.by_slope_level, (above.by_slope - below.by_slope) / (2 * h), 1e-4);
    EXPECT_NEAR(here.by_level2, (above.by_level - below.by_level) / (2 * h), 1e-4);
  }
}

TEST(WeibullLikelihood, LinesAndDistributionsAreEachOthersInverse) {
  const WeibullLikelihood likelihood(of_every_kind);
  const Weibull life = likelihood.weibull(likelihood.line({2.5, 40}));
  EXPECT_NEAR(life.shape, 2.5, 1e-14);
  EXPECT_NEAR(life.scale, 40, 1e-11);
}

}  // namespace
}  // namespace hw::life
