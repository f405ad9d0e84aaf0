#include "libs/numerics/random.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "libs/values/assert.h"

namespace hw::numerics {

std::uint64_t Random::next() {
  state_ += 0x9e3779b97f4a7c15U;
  std::uint64_t z = state_;
  z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9U;
  z = (z ^ (z >> 27)) * 0x94d049bb133111ebU;
  return z ^ (z >> 31);
}

double Random::uniform() { return (static_cast<double>(next() >> 11) + 0.5) * 0x1p-53; }

double Random::log_between(double min, double max) {
  HW_ASSERT(min > 0 && min <= max, "a range above zero");
  return std::exp(between(std::log(min), std::log(max)));
}

int Random::whole_between(int min, int max) {
  HW_ASSERT(min <= max, "a range that is not empty");
  return min + static_cast<int>(uniform() * (static_cast<double>(max) - min + 1));
}

// Box and Muller 1958.
double Random::normal() {
  const double radius = std::sqrt(-2 * std::log(uniform()));
  return radius * std::cos(2 * std::numbers::pi * uniform());
}

double Random::gamma(double shape) {
  HW_ASSERT(shape > 0, "a shape above zero");
  if (shape < 1) {
    const double larger = gamma(shape + 1);
    return larger * std::pow(uniform(), 1 / shape);
  }
  const double d = shape - 1.0 / 3;
  const double c = 1 / std::sqrt(9 * d);
  for (;;) {
    const double x = normal();
    const double root = 1 + c * x;
    if (root <= 0) continue;
    const double v = root * root * root;
    if (std::log(uniform()) < 0.5 * x * x + d - d * v + d * std::log(v)) return d * v;
  }
}

int Random::geometric(double mean) {
  HW_ASSERT(mean >= 1, "a mean of at least 1");
  if (mean <= 1) return 1;
  return 1 + static_cast<int>(std::min(1e9, std::floor(std::log(uniform()) / std::log1p(-1 / mean))));
}

}  // namespace hw::numerics
