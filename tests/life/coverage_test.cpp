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

// How long parts are watched: until all have failed, until half of them have on average, or a fifth.
enum class Watched { complete, half, fifth };

const char* word_of(Watched watched) {
  return watched == Watched::complete ? "complete" : watched == Watched::half ? "half" : "a fifth";
}
double end_of(Watched watched) {
  if (watched == Watched::complete) return life::never;
  return life::quantile({2, 1}, watched == Watched::half ? 0.5 : 0.2);
}

struct Row {
  std::size_t lives = 0;
  Watched watched = Watched::complete;
  double refused = 0;  // share of samples without a fit
  double shape_likely = 0, shape_wald = 0, scale_likely = 0, b10_likely = 0, b10_wald = 0, good_likely = 0,
         good_wald = 0;
};

constexpr double good_at = 0.5;  // at half the scale 78 % are good

bool contain(const life::Bounds& bounds, double truth) { return bounds.lower <= truth && truth <= bounds.upper; }

std::vector<life::Observed> draw(numerics::Random& random, const Row& row) {
  std::vector<life::Observed> lives;
  const double end = end_of(row.watched);
  for (std::size_t n = 0; n < row.lives; ++n) {
    const double age = life::quantile({2, 1}, random.uniform());
    lives.push_back(age < end ? life::Observed{age, age} : life::Observed{end});
  }
  return lives;
}

// The shares do not depend on shape and scale in complete samples; here they are 2 and 1.
Row covered(Row row, int samples) {
  numerics::Random random(1000 + row.lives + 500 * static_cast<std::size_t>(row.watched));
  int fitted = 0;
  for (int n = 0; n < samples; ++n) {
    const auto lives = draw(random, row);
    const life::WeibullLikelihood likelihood(lives);
    const auto fit = life::fit_weibull(likelihood);
    if (!fit) continue;
    ++fitted;
    const double b10 = life::quantile({2, 1}, 0.1), good = life::reliability({2, 1}, good_at);
    row.shape_likely += contain(life::likely_shape(likelihood, *fit, 0.95), 2);
    row.shape_wald += contain(life::wald_shape(*fit, 0.95), 2);
    row.scale_likely += contain(life::likely_scale(likelihood, *fit, 0.95), 1);
    row.b10_likely += contain(life::likely_quantile(likelihood, *fit, 0.1, 0.95), b10);
    row.b10_wald += contain(life::wald_quantile(*fit, 0.1, 0.95), b10);
    row.good_likely += contain(life::likely_reliability(likelihood, *fit, good_at, 0.95), good);
    row.good_wald += contain(life::wald_reliability(*fit, good_at, 0.95), good);
  }
  for (double* share : {&row.shape_likely, &row.shape_wald, &row.scale_likely, &row.b10_likely, &row.b10_wald,
                        &row.good_likely, &row.good_wald}) {
    *share /= fitted;
  }
  row.refused = 1 - static_cast<double>(fitted) / samples;
  return row;
}

void print_row(const Row& row) {
  std::printf("| %zu | %s | %.1f %% | %.1f %% | %.1f %% | %.1f %% | %.1f %% | %.1f %% | %.1f %% | %.1f %% |\n",
              row.lives, word_of(row.watched), 100 * row.shape_likely, 100 * row.shape_wald, 100 * row.scale_likely,
              100 * row.b10_likely, 100 * row.b10_wald, 100 * row.good_likely, 100 * row.good_wald, 100 * row.refused);
}

// As the table has it: shape, scale, B10 and reliability by likelihood ratio.
struct Claim {
  std::size_t lives;
  Watched watched;
  double shape, scale, b10, good;
};
constexpr Claim claims[] = {
    {3, Watched::complete, 0.842, 0.849, 0.859, 0.855},  {5, Watched::complete, 0.893, 0.897, 0.902, 0.900},
    {10, Watched::complete, 0.927, 0.927, 0.930, 0.930}, {20, Watched::complete, 0.939, 0.938, 0.942, 0.942},
    {50, Watched::complete, 0.946, 0.947, 0.946, 0.947}, {3, Watched::half, 0.903, 0.893, 0.922, 0.911},
    {5, Watched::half, 0.925, 0.951, 0.933, 0.930},      {10, Watched::half, 0.942, 0.944, 0.943, 0.938},
    {20, Watched::half, 0.945, 0.949, 0.944, 0.943},     {50, Watched::half, 0.948, 0.950, 0.950, 0.949},
    {5, Watched::fifth, 0.929, 0.913, 0.939, 0.924},     {10, Watched::fifth, 0.935, 0.936, 0.946, 0.963},
    {20, Watched::fifth, 0.944, 0.943, 0.939, 0.955},    {50, Watched::fifth, 0.949, 0.949, 0.945, 0.952},
};

TEST(Coverage, OfSmallSamplesIsWhatTheDocumentsSay) {
  const char* asked = std::getenv("HW_SAMPLES");
  const int samples = asked != nullptr ? std::atoi(asked) : 1000;
  for (const Claim& claim : claims) {
    const Row row = covered({claim.lives, claim.watched}, samples);
    print_row(row);
    EXPECT_NEAR(row.shape_likely, claim.shape, 0.045);  // four standard deviations of 1,000 samples
    EXPECT_NEAR(row.scale_likely, claim.scale, 0.045);
    EXPECT_NEAR(row.b10_likely, claim.b10, 0.045);
    EXPECT_NEAR(row.good_likely, claim.good, 0.045);
  }
}

}  // namespace
}  // namespace hw::tests
