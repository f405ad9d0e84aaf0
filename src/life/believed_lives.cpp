#include "src/life/believed_lives.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "src/life/likelihood_bounds.h"

namespace hw::life {
namespace {

constexpr double shape_min = 0.1;
constexpr double shape_max = 30;
constexpr int shapes = 41;
constexpr int levels = 25;
constexpr double spread_levels = 5;      // standard deviations of the level for a given slope
constexpr double conf_reach = 0.999999;  // of the shape: how far the grid goes
constexpr double share_min = 1e-6;       // what is believed less is left out
constexpr double looked_at_min = 0.02;   // of the likeliest scale: intervals from here ...
constexpr double looked_at_max = 5;      // ... to here are looked at

// The level with the highest likelihood for a slope, and the standard deviation around it.
struct Level {
  double best = 0;
  double spread = 1;
};
Level level_at(const WeibullLikelihood& likelihood, double slope, double begin) {
  Level level{begin, 1};
  for (int round = 0; round < 60; ++round) {
    const Terms at = likelihood.at({slope, level.best});
    const double step = std::isfinite(at.value) ? std::clamp(-at.by_level / at.by_level2, -3.0, 3.0) : -3.0;
    level.best += step;
    level.spread = 1 / std::sqrt(-at.by_level2);
    if (std::abs(step) < 1e-6) break;
  }
  return level;
}

// A figure's value below which that share of belief lies.
double believed_quantile(std::vector<std::pair<double, double>> values, double share) {
  std::sort(values.begin(), values.end());
  double sum = 0;
  for (const auto& [value, weight] : values) {
    sum += weight;
    if (sum >= share) return value;
  }
  return values.back().first;
}

}  // namespace

// Flat in log shape and log scale is flat in log slope, and in level divided by the slope: each point counts 1/slope
// times the width of a step of its level.
Result<std::vector<Believed>> believed_lives(const WeibullLikelihood& likelihood, const WeibullFit& fit) {
  if (fit.counts.failures < 2) {
    return refuse(ErrorCode::bad_input, Saying{"life-one-failure"},
                  "at least two failures are needed to weigh intervals by what is known");
  }
  const Bounds reach = likely_shape(likelihood, fit, conf_reach);
  const double first = std::log(std::max(reach.lower, shape_min));
  const double last = std::log(std::min(reach.upper, shape_max));
  if (!(first < last)) {
    return refuse(ErrorCode::bad_input, Saying{"life-odd-shape", {}, {{"least", shape_min}, {"most", shape_max}}},
                  "the shape is outside {} to {}: no part's life is so", shape_min, shape_max);
  }
  std::vector<Believed> believed;
  double sum = 0;
  double begin = fit.line.level;
  for (int n = 0; n < shapes; ++n) {
    const double slope = std::exp(first + (last - first) * n / (shapes - 1));
    const Level level = level_at(likelihood, slope, begin);
    begin = level.best;
    for (int k = 0; k < levels; ++k) {
      const double away = spread_levels * (2.0 * k / (levels - 1) - 1);
      const Line line{slope, level.best + away * level.spread};
      const double share = std::exp(likelihood.at(line).value - fit.loglik) * level.spread / slope;
      believed.push_back({likelihood.weibull(line), share});
      sum += share;
    }
  }
  std::erase_if(believed, [&](const Believed& one) { return !(one.share > share_min * sum); });
  sum = std::accumulate(believed.begin(), believed.end(), 0.0,
                        [](double before, const Believed& one) { return before + one.share; });
  for (Believed& one : believed) one.share /= sum;
  return believed;
}

double expected_cost_rate(std::span<const Believed> believed, const ReplacementCosts& costs, double age) {
  double rate = 0;
  for (const Believed& one : believed) rate += one.share * age_cost_rate(one.life, costs, age);
  return rate;
}

CostRate believed_cost_rate(std::span<const Believed> believed, const ReplacementCosts& costs, double age) {
  CostRate rate;
  std::vector<std::pair<double, double>> rates;
  for (const Believed& one : believed) {
    rates.emplace_back(age_cost_rate(one.life, costs, age), one.share);
    rate.expected += one.share * rates.back().first;
  }
  rate.range = {believed_quantile(rates, 0.05), believed_quantile(rates, 0.95)};
  return rate;
}

// The expected rate may have more than one valley: all of a grid of ages is looked at, then the lowest is refined by
// golden section.
CheapestInterval cheapest_interval(std::span<const Believed> believed, const ReplacementCosts& costs) {
  CheapestInterval cheapest{{}, 0, expected_cost_rate(believed, costs, never)};
  double log_scale = 0;
  for (const Believed& one : believed) log_scale += one.share * std::log(one.life.scale);
  const double step = 0.1;
  const auto rate_at = [&](double log_age) { return expected_cost_rate(believed, costs, std::exp(log_age)); };
  double low = log_scale, low_rate = rate_at(low);
  for (double at = log_scale + std::log(looked_at_min); at < log_scale + std::log(looked_at_max); at += step) {
    const double rate = rate_at(at);
    if (rate < low_rate) low = at, low_rate = rate;
  }
  const double golden = 0.5 * (std::sqrt(5.0) - 1);
  double a = low - step, b = low + step;
  double left = b - golden * (b - a), right = a + golden * (b - a);
  double left_rate = rate_at(left), right_rate = rate_at(right);
  while (b - a > 1e-6) {
    if (left_rate < right_rate) {
      b = right;
      right = left, right_rate = left_rate;
      left = b - golden * (b - a);
      left_rate = rate_at(left);
    } else {
      a = left;
      left = right, left_rate = right_rate;
      right = a + golden * (b - a);
      right_rate = rate_at(right);
    }
  }
  cheapest.cost_rate = rate_at(a);
  if (cheapest.cost_rate < cheapest.run_to_failure * (1 - 1e-9)) {
    cheapest.interval = std::exp(a);
  } else {
    cheapest.cost_rate = cheapest.run_to_failure;
  }
  return cheapest;
}

BelievedAdvice advise_age(std::span<const Believed> believed, const ReplacementCosts& costs) {
  const CheapestInterval cheapest = cheapest_interval(believed, costs);
  BelievedAdvice advice;
  advice.interval = cheapest.interval;
  advice.cost_rate = cheapest.cost_rate;
  advice.run_to_failure = cheapest.run_to_failure;
  if (advice.interval) advice.saving = 1 - advice.cost_rate / advice.run_to_failure;
  std::vector<std::pair<double, double>> best;
  for (const Believed& one : believed)
    best.emplace_back(advise_age(one.life, costs).interval.value_or(never), one.share);
  advice.best_5 = believed_quantile(best, 0.05);
  advice.best_50 = believed_quantile(best, 0.5);
  advice.best_95 = believed_quantile(std::move(best), 0.95);
  return advice;
}

Move judge_move(std::span<const Believed> believed, const ReplacementCosts& costs, double from, double to) {
  Move move;
  std::vector<std::pair<double, double>> savings;
  for (const Believed& one : believed) {
    const double saving = age_cost_rate(one.life, costs, from) - age_cost_rate(one.life, costs, to);
    savings.emplace_back(saving, one.share);
    move.saving += one.share * saving;
    move.chance += saving > 0 ? one.share : 0;
  }
  move.saving_5 = believed_quantile(savings, 0.05);
  move.saving_95 = believed_quantile(std::move(savings), 0.95);
  return move;
}

}  // namespace hw::life
