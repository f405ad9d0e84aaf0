#include "src/kits/poisson.h"

#include <algorithm>
#include <cmath>

#include <boost/math/special_functions/gamma.hpp>

#include "libs/numerics/normal_tail.h"
#include "libs/values/assert.h"

namespace hw::kits {
namespace {

// sum over k > s of (k - s) P(D = k), for s >= mean: terms fall at least as fast as a geometric series.
double missing_above(double mean, double s) {
  double term = poisson_at(mean, s + 1), sum = 0;
  for (double k = s + 1; term * (k - s) > 1e-18 * sum; ++k) {
    sum += (k - s) * term;
    term *= mean / (k + 1);
  }
  return sum;
}

// sum over k < s of (s - k) P(D = k), for s <= mean.
double left_below(double mean, double s) {
  double term = s >= 1 ? poisson_at(mean, s - 1) : 0, sum = 0;
  for (double k = s - 1; k >= 0 && term * (s - k) > 1e-18 * sum; --k) {
    sum += (s - k) * term;
    term *= k / mean;
  }
  return sum;
}

}  // namespace

double poisson_at(double mean, double k) {
  if (k < 0) return 0;
  if (mean <= 0) return k == 0 ? 1 : 0;
  return boost::math::gamma_p_derivative(k + 1, mean);
}

double poisson_below(double mean, double s) {
  if (s < 0) return 0;
  return mean <= 0 ? 1 : boost::math::gamma_q(std::floor(s) + 1, mean);
}

double poisson_above(double mean, double s) {
  if (s < 0) return 1;
  return mean <= 0 ? 0 : boost::math::gamma_p(std::floor(s) + 1, mean);
}

double poisson_level(double mean, double chance) {
  HW_ASSERT(mean >= 0 && chance > 0 && chance < 1, "a mean of at least 0, a chance inside (0, 1)");
  const auto is_enough = [&](double s) {
    return poisson_below(mean, s) >= chance || poisson_above(mean, s) <= 1 - chance;
  };
  double s = std::max(std::floor(mean + numerics::normal_quantile(chance) * std::sqrt(mean)), 0.0);
  while (s > 0 && is_enough(s - 1)) --s;
  while (!is_enough(s)) ++s;
  return s;
}

double poisson_missing(double mean, double s) {
  if (mean <= 0) return std::max(-s, 0.0);
  return s >= mean ? missing_above(mean, s) : mean - s + poisson_left(mean, s);
}

double poisson_left(double mean, double s) {
  if (mean <= 0) return std::max(s, 0.0);
  return s <= mean ? left_below(mean, s) : s - mean + missing_above(mean, s);
}

void fill_poisson_run(PoissonRun& run, double mean, double chance_least) {
  run = {0, std::move(run.chances)};
  run.chances.assign(1, 1);
  if (mean <= 0) return;
  const double likeliest = std::floor(mean);
  double sum = 1, lowest = likeliest;
  for (double at = likeliest / mean; at > chance_least; at *= --lowest / mean) {
    run.chances.push_back(at);
    sum += at;
  }
  std::reverse(run.chances.begin(), run.chances.end());
  for (double k = likeliest + 1, at = mean / k; at > chance_least; ++k, at *= mean / k) {
    run.chances.push_back(at);
    sum += at;
  }
  run.first = static_cast<std::size_t>(lowest);
  for (double& chance : run.chances) chance /= sum;
}

}  // namespace hw::kits
