#include "libs/numerics/gauss_legendre.h"

#include <cmath>

#include <gtest/gtest.h>

namespace hw::numerics {
namespace {

double integral(std::size_t count, double from, double to, double (*f)(double)) {
  double sum = 0;
  for (const auto& [at, weight] : gauss_legendre(count, from, to)) sum += weight * f(at);
  return sum;
}

TEST(GaussLegendre, IsExactForPolynomialsUpToItsDegree) {
  const auto seventh = [](double x) { return x * x * x * x * x * x * x; };
  EXPECT_NEAR(integral(4, 0, 2, seventh), 32, 1e-12);
  EXPECT_GT(std::abs(integral(3, 0, 2, seventh) - 32), 1e-3);  // three nodes are one too few
}

TEST(GaussLegendre, IntegratesASmoothFunctionToTheLastDigits) {
  EXPECT_NEAR(integral(40, -8, 8, [](double x) { return std::exp(-x * x / 2); }), std::sqrt(2 * M_PI), 1e-12);
}

TEST(GaussLegendre, Property_WeightsSumToTheLengthAndNodesRise) {
  for (const std::size_t count : {1U, 2U, 3U, 17U, 64U, 801U}) {
    const auto nodes = gauss_legendre(count, -3, 4);
    double sum = 0;
    for (std::size_t n = 0; n < nodes.size(); ++n) {
      sum += nodes[n].weight;
      if (n > 0) {
        EXPECT_LT(nodes[n - 1].at, nodes[n].at);
      }
    }
    EXPECT_NEAR(sum, 7, 1e-11) << count;
  }
}

}  // namespace
}  // namespace hw::numerics
