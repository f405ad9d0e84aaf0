#include "src/due/rate_quantiles.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include <boost/math/distributions/gamma.hpp>
#include <gtest/gtest.h>

#include "libs/numerics/random.h"

namespace hw::due {
namespace {

TEST(RateQuantiles, OneBeliefIsNearlyAGammaDistribution) {
  const double spread = 0.4;
  const std::vector<WeightedRate> one = {{1, 10, 16, 1e6}};
  const boost::math::gamma_distribution<> gamma(1 / (spread * spread), 10 * spread * spread);
  const auto rates = rates_exceeded(one);
  for (std::size_t n = 2; n + 2 < chances.size(); ++n) {
    EXPECT_NEAR(rates[n], boost::math::quantile(boost::math::complement(gamma, chances[n])), 0.12) << chances[n];
  }
}

TEST(RateQuantiles, TheyFallWithTheChanceAndAreNeverNegative) {
  const std::vector<WeightedRate> mixture = {{0.5, 10, 1, 8}, {0.3, 4, 30, 4}, {0.2, 0.01, 1, 4}};
  const auto rates = rates_exceeded(mixture);
  for (std::size_t n = 0; n < rates.size(); ++n) {
    EXPECT_GE(rates[n], 0);
    if (n > 0) {
      EXPECT_LE(rates[n], rates[n - 1]);
    }
  }
  EXPECT_LT(rates[13], 0.2);  // with a chance of a fifth there is nearly no use
}

TEST(RateQuantiles, TwoNarrowBeliefsFarApartStayApart) {
  const std::vector<WeightedRate> two = {{0.5, 10, 1e-4, 100}, {0.5, 2, 1e-4, 100}};
  const auto rates = rates_exceeded(two);
  EXPECT_NEAR(rates[3], 10, 0.5);
  EXPECT_NEAR(rates[11], 2, 0.5);
}

// What a mixture says is held against its own definition, T drawn by chance.
TEST(RateQuantiles, ANarrowBeliefWithinAWideOneIsMetBySimulation) {
  const std::vector<WeightedRate> two = {{0.9, 10, 0.04, 200}, {0.1, 10, 36, 30}};
  const auto rates = rates_exceeded(two);
  numerics::Random random(20261126);
  std::vector<double> drawn(400'000);
  for (double& rate : drawn) {
    const WeightedRate& one = two[random.chance(two[0].weight) ? 0 : 1];
    const double c = std::sqrt(one.variance) / one.mean;
    const double student = random.normal() / std::sqrt(random.gamma(one.degrees / 2) * 2 / one.degrees);
    rate = one.mean * std::pow(std::max(0.0, 1 - c * c / 9 + c / 3 * student), 3);
  }
  for (std::size_t n = 0; n < chances.size(); ++n) {
    const auto reached = std::count_if(drawn.begin(), drawn.end(), [&](double rate) { return rate >= rates[n]; });
    EXPECT_NEAR(static_cast<double>(reached) / static_cast<double>(drawn.size()), chances[n], 0.02) << chances[n];
  }
}

}  // namespace
}  // namespace hw::due
