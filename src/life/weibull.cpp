#include "src/life/weibull.h"

#include <cmath>

#include "libs/numerics/gamma_tail.h"

namespace hw::life {

double reliability(const Weibull& life, double age) { return std::exp(-std::pow(age / life.scale, life.shape)); }

double hazard(const Weibull& life, double age) {
  return life.shape / life.scale * std::pow(age / life.scale, life.shape - 1);
}

double quantile(const Weibull& life, double share) {
  return life.scale * std::pow(-std::log1p(-share), 1 / life.shape);
}

double mean_life(const Weibull& life) { return life.scale * std::tgamma(1 + 1 / life.shape); }

// From logarithms: for steep shapes the plain difference of squares would lose all digits.
double life_spread(const Weibull& life) {
  const double ratio = std::lgamma(1 + 2 / life.shape) - 2 * std::lgamma(1 + 1 / life.shape);
  return mean_life(life) * std::sqrt(std::expm1(ratio));
}

// With u = (t / scale)^shape the integral is scale Gamma(1 + 1/shape) P(1/shape, u), P the regularised lower
// incomplete gamma function.
double mean_life_until(const Weibull& life, double age) {
  constexpr double nearly_none = 1e-17;  // failed by then: below rounding, where the gamma function would underflow
  if (std::pow(age / life.scale, life.shape) < nearly_none) return age;
  return mean_life(life) * numerics::gamma_below(1 / life.shape, std::pow(age / life.scale, life.shape));
}

}  // namespace hw::life
