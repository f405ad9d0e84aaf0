// How often the 95 % intervals of a Weibull fit contain the truth, in small samples. Prints the table of
// docs/methods/life.md, made with HW_SAMPLES=20000; without it, 1,000 samples a row, each row is held against what that
// table says.

#include <cmath>
#include <cstdlib>

#include <gtest/gtest.h>

#include "libs/numerics/random.h"
#include "src/life/likelihood_bounds.h"
#include "src/life/weibull_fit.h"

namespace hw::tests {
namespace {

struct Row {
  std::size_t lives = 0;
  bool is_half_seen = false;  // watched up to the median life, so that half are taken out good on average
  double refused = 0;         // share of samples without a fit
  double shape_likely = 0, shape_wald = 0, scale_likely = 0, b10_likely = 0, b10_wald = 0;
};

bool contain(const life::Bounds& bounds, double truth) { return bounds.lower <= truth && truth <= bounds.upper; }

std::vector<life::Observed> draw(numerics::Random& random, const Row& row) {
  std::vector<life::Observed> lives;
  const double end = row.is_half_seen ? std::sqrt(std::log(2.0)) : life::never;
  for (std::size_t n = 0; n < row.lives; ++n) {
    const double age = life::quantile({2, 1}, random.uniform());
    lives.push_back(age < end ? life::Observed{age, age} : life::Observed{end});
  }
  return lives;
}

// The shares do not depend on shape and scale in complete samples; here they are 2 and 1.
Row covered(Row row, int samples) {
  numerics::Random random(1000 + row.lives + (row.is_half_seen ? 500 : 0));
  int fitted = 0;
  for (int n = 0; n < samples; ++n) {
    const auto lives = draw(random, row);
    const life::WeibullLikelihood likelihood(lives);
    const auto fit = life::fit_weibull(likelihood);
    if (!fit) continue;
    ++fitted;
    const double b10 = life::quantile({2, 1}, 0.1);
    row.shape_likely += contain(life::likely_shape(likelihood, *fit, 0.95), 2);
    row.shape_wald += contain(life::wald_shape(*fit, 0.95), 2);
    row.scale_likely += contain(life::likely_scale(likelihood, *fit, 0.95), 1);
    row.b10_likely += contain(life::likely_quantile(likelihood, *fit, 0.1, 0.95), b10);
    row.b10_wald += contain(life::wald_quantile(*fit, 0.1, 0.95), b10);
  }
  for (double* share : {&row.shape_likely, &row.shape_wald, &row.scale_likely, &row.b10_likely, &row.b10_wald}) {
    *share /= fitted;
  }
  row.refused = 1 - static_cast<double>(fitted) / samples;
  return row;
}

void print_row(const Row& row) {
  std::printf("| %zu | %s | %.1f %% | %.1f %% | %.1f %% | %.1f %% | %.1f %% | %.1f %% |\n", row.lives,
              row.is_half_seen ? "half" : "complete", 100 * row.shape_likely, 100 * row.shape_wald,
              100 * row.scale_likely, 100 * row.b10_likely, 100 * row.b10_wald, 100 * row.refused);
}

// As the table has it: shape, scale and B10 by likelihood ratio.
struct Claim {
  std::size_t lives;
  bool is_half_seen;
  double shape, scale, b10;
};
constexpr Claim claims[] = {
    {3, false, 0.842, 0.849, 0.859},  {5, false, 0.893, 0.897, 0.902}, {10, false, 0.927, 0.927, 0.930},
    {20, false, 0.939, 0.938, 0.942}, {3, true, 0.903, 0.893, 0.922},  {5, true, 0.925, 0.951, 0.933},
    {10, true, 0.942, 0.944, 0.943},  {20, true, 0.945, 0.949, 0.944},
};

TEST(Coverage, OfSmallSamplesIsWhatTheDocumentsSay) {
  const char* asked = std::getenv("HW_SAMPLES");
  const int samples = asked != nullptr ? std::atoi(asked) : 1000;
  for (const Claim& claim : claims) {
    const Row row = covered({claim.lives, claim.is_half_seen}, samples);
    print_row(row);
    EXPECT_NEAR(row.shape_likely, claim.shape, 0.045);  // four standard deviations of 1,000 samples
    EXPECT_NEAR(row.scale_likely, claim.scale, 0.045);
    EXPECT_NEAR(row.b10_likely, claim.b10, 0.045);
  }
}

}  // namespace
}  // namespace hw::tests
