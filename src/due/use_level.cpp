#include "src/due/use_level.h"

#include <algorithm>
#include <cmath>

namespace hw::due {
namespace {

constexpr double noise_guess = 0.6;       // v before anything is seen ...
constexpr double noise_guess_days = 4;    // ... as strong as so many blocks
constexpr double season_variance = 0.15;  // of a and b before anything is seen
constexpr double level_min = 0.4;         // a machine that stands is not taken to be noiseless
constexpr double level_max = 4;

using Vector = std::array<double, 4>;

double wander_variance(const Hypothesis& h) { return h.unrest > 0 ? 4 * h.unrest / h.memory_days : 0; }

double noise_of(double level) {
  const double bounded = std::clamp(level, level_min, level_max);
  return bounded * bounded;
}

// Kalman's filter over blocks; all variances in units of v.
class Filter {
 public:
  Filter(const Hypothesis& h, const MeanPrior& prior) : h_(h), size_(h.has_season ? 4 : 2) {
    mean_[1] = prior.mean;
    spread_[0][0] = wander_variance(h);
    spread_[1][1] = prior.variance / noise_guess;
    spread_[2][2] = spread_[3][3] = season_variance / noise_guess;
  }

  // Time passes: u forgets.
  void pass(double days) {
    spread_[1][1] += h_.drift * days;
    if (h_.unrest <= 0) return;
    const double kept = std::exp(-days / h_.memory_days);
    mean_[0] *= kept;
    for (std::size_t n = 1; n < size_; ++n) spread_[n][0] = spread_[0][n] *= kept;
    spread_[0][0] = kept * kept * spread_[0][0] + wander_variance(h_) * (1 - kept * kept);
  }

  void see(const UseBlock& block) {
    const Vector seen = {1, 1, block.year_cos, block.year_sin};
    Vector gain{};
    double level = 0, variance = 0;
    for (std::size_t n = 0; n < size_; ++n) {
      level += seen[n] * mean_[n];
      for (std::size_t k = 0; k < size_; ++k) gain[n] += spread_[n][k] * seen[k];
    }
    for (std::size_t n = 0; n < size_; ++n) variance += seen[n] * gain[n];
    variance += noise_of(level) / block.shares;
    const double off = block.used / block.shares - level;
    squares_ += off * off / variance;
    gather_log(variance);
    for (std::size_t n = 0; n < size_; ++n) mean_[n] += gain[n] / variance * off;
    for (std::size_t n = 0; n < size_; ++n) {
      for (std::size_t k = 0; k < size_; ++k) spread_[n][k] -= gain[n] * gain[k] / variance;
    }
  }

  LevelBelief belief(std::size_t blocks) const {
    const double shape = (noise_guess_days + static_cast<double>(blocks)) / 2;
    const double rate = (noise_guess_days * noise_guess + squares_) / 2;
    LevelBelief belief{h_,           mean_,     spread_,
                       rate / shape, 2 * shape, -0.5 * (log_variance_ + std::log(product_)) - shape * std::log(rate)};
    for (Vector& row : belief.spread) {
      for (double& entry : row) entry *= belief.noise;
    }
    return belief;
  }

 private:
  // The sum of logarithms as the logarithm of a product, which is taken now and then only.
  void gather_log(double variance) {
    product_ *= variance;
    if (product_ > 1e-200 && product_ < 1e200) return;
    log_variance_ += std::log(product_);
    product_ = 1;
  }

  Hypothesis h_;
  std::size_t size_;
  Vector mean_{};
  std::array<Vector, 4> spread_{};
  double squares_ = 0;
  double log_variance_ = 0;
  double product_ = 1;
};

// The variance of the mean of u over t days, beyond what follows from u at the start:
//   s^2 (2 k t - 3 k^2 + 4 k^2 e - k^2 e^2) / t^2,   k = memory, e = exp(-t / k).
double wander_ahead(const LevelBelief& belief, double days) {
  const double k = belief.hypothesis.memory_days;
  const double e = std::exp(-days / k);
  const double integral = 2 * k * days - k * k * (3 - 4 * e + e * e);
  return std::max(0.0, wander_variance(belief.hypothesis) * belief.noise * integral / (days * days));
}

// The means of 1, the fading of u, cos and sin over the days ahead.
Vector weights_ahead(const LevelBelief& belief, const BlockRun& run, double days) {
  const double k = belief.hypothesis.memory_days;
  Vector weights = {k * -std::expm1(-days / k) / days, 1, 0, 0};
  if (!belief.hypothesis.has_season) return weights;
  const double begin = run.year_phase + radians_per_day * run.days;
  const double end = begin + radians_per_day * days;
  weights[2] = (std::sin(end) - std::sin(begin)) / (end - begin);
  weights[3] = (std::cos(begin) - std::cos(end)) / (end - begin);
  return weights;
}

}  // namespace

LevelBelief learn_level(const Hypothesis& hypothesis, const BlockRun& run, const MeanPrior& prior) {
  Filter filter(hypothesis, prior);
  double now = run.blocks.empty() ? 0 : run.blocks.front().middle;
  for (const UseBlock& block : run.blocks) {
    filter.pass(block.middle - now);
    now = block.middle;
    filter.see(block);
  }
  filter.pass(run.days - now);
  return filter.belief(run.blocks.size());
}

RateAhead rate_ahead(const LevelBelief& belief, const BlockRun& run, double days) {
  const Vector weights = weights_ahead(belief, run, days);
  const std::size_t size = belief.hypothesis.has_season ? 4 : 2;
  RateAhead rate{0, wander_ahead(belief, days) + belief.hypothesis.drift * belief.noise * days / 3, 0};
  for (std::size_t n = 0; n < size; ++n) {
    rate.mean += weights[n] * belief.mean[n];
    for (std::size_t k = 0; k < size; ++k) rate.level_variance += weights[n] * weights[k] * belief.spread[n][k];
  }
  rate.noise = belief.noise * noise_of(rate.mean);
  return rate;
}

}  // namespace hw::due
