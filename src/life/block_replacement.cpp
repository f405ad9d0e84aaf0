#include "src/life/block_replacement.h"

#include <algorithm>
#include <vector>

#include "libs/numerics/root.h"
#include "src/life/renewals.h"

namespace hw::life {
namespace {

constexpr double block_reach = 4;  // mean lives; beyond, all is as at random
constexpr std::size_t block_looks = 2000;

// First where on a coarse grid T m - M passes planned / failed, then exactly.
std::optional<double> first_stationary(const Weibull& life, const ReplacementCosts& costs) {
  const double aim = costs.planned / costs.failed;
  const double end = block_reach * mean_life(life);
  const double cell = end / static_cast<double>(block_looks);
  const auto excess_of = [aim](const Renewals& renewals, double age) {
    return age * renewals.density - renewals.expected - aim;
  };
  const auto excess = [&](double age) { return numerics::Sloped{excess_of(renewals_by(life, age), age), 0}; };
  const std::vector<Renewals> along = renewals_along(life, end, block_looks);
  for (std::size_t n = 1; n <= block_looks; ++n) {
    const double age = cell * static_cast<double>(n);
    if (excess_of(along[n], age) < 0) continue;
    const double before = std::max(age - 2 * cell, 0.0);
    const double after = age + cell;
    if (excess(before).value > 0 || excess(after).value < 0) continue;  // the coarse grid was off
    return numerics::find_root(excess, before, after, 1e-9 * life.scale);
  }
  return std::nullopt;
}

}  // namespace

double block_cost_rate(const Weibull& life, const ReplacementCosts& costs, double interval) {
  return (costs.planned + costs.failed * renewals_by(life, interval).expected) / interval;
}

BlockAdvice advise_block(const Weibull& life, const ReplacementCosts& costs) {
  BlockAdvice advice;
  advice.run_to_failure = run_to_failure_rate(life, costs);
  advice.cost_rate = advice.run_to_failure;
  if (life.shape <= 1 || costs.failed <= 0 || costs.planned <= 0) return advice;
  const auto interval = first_stationary(life, costs);
  if (!interval) return advice;
  const double rate = block_cost_rate(life, costs, *interval);
  if (rate >= advice.run_to_failure * (1 - 1e-9)) return advice;
  advice.interval = interval;
  advice.cost_rate = rate;
  advice.saving = 1 - rate / advice.run_to_failure;
  advice.failures = renewals_by(life, *interval).expected;
  return advice;
}

}  // namespace hw::life
