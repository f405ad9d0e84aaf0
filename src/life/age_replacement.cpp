#include "src/life/age_replacement.h"

#include <cmath>

#include "libs/numerics/root.h"

namespace hw::life {
namespace {

constexpr double saving_min = 1e-9;  // less is rounding, and nobody's money

}  // namespace

double age_cost_rate(const Weibull& life, const ReplacementCosts& costs, double age) {
  if (std::isinf(age)) return run_to_failure_rate(life, costs);
  const double good = reliability(life, age);
  const double failed = -std::expm1(-std::pow(age / life.scale, life.shape));
  return (costs.planned * good + costs.failed * failed) / mean_life_until(life, age);
}

double run_to_failure_rate(const Weibull& life, const ReplacementCosts& costs) {
  return costs.failed / mean_life(life);
}

// With u = T / scale: its derivative by log u is u h'(u) I(u), as the other terms cancel.
std::optional<double> stationary_age(const Weibull& life, const ReplacementCosts& costs) {
  if (life.shape <= 1 || costs.failed <= costs.planned || costs.planned <= 0) return std::nullopt;
  const Weibull unit{life.shape, 1};
  const double aim = costs.planned / (costs.failed - costs.planned);
  const auto excess = [&](double log_u) {
    const double u = std::exp(log_u);
    const double rise = hazard(unit, u) * mean_life_until(unit, u);
    return numerics::Sloped{rise + std::expm1(-std::pow(u, life.shape)) - aim, (life.shape - 1) * rise};
  };
  double upper = 0;
  while (excess(upper).value < 0) {
    if (upper > 600) return std::nullopt;
    upper += 1;
  }
  double lower = upper - 1;
  while (excess(lower).value > 0) lower -= 1;
  return life.scale * std::exp(numerics::find_root(excess, lower, upper, 1e-13));
}

AgeAdvice advise_age(const Weibull& life, const ReplacementCosts& costs) {
  AgeAdvice advice;
  advice.run_to_failure = run_to_failure_rate(life, costs);
  advice.cost_rate = advice.run_to_failure;
  advice.mean_cycle = mean_life(life);
  const auto age = stationary_age(life, costs);
  if (!age) return advice;
  const double rate = age_cost_rate(life, costs, *age);
  if (rate > advice.run_to_failure * (1 - saving_min)) return advice;
  advice.interval = age;
  advice.cost_rate = rate;
  advice.saving = 1 - rate / advice.run_to_failure;
  advice.mean_cycle = mean_life_until(life, *age);
  return advice;
}

}  // namespace hw::life
