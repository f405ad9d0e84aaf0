#include "src/condition/chart_constants.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "libs/numerics/gauss_legendre.h"
#include "libs/numerics/normal_tail.h"

namespace hw::condition {
namespace {

using numerics::normal_below;

constexpr double range_reach = 9;  // beyond which a standard normal value has no weight that a double would notice

// P(W <= w) = n * integral of phi(x) (Phi(x + w) - Phi(x))^(n - 1) dx, x the smallest value. The trapezoidal rule is as
// exact as doubles are for smooth functions that vanish at both ends.
double range_below(double w, std::size_t n) {
  constexpr double step = 0.1;
  double sum = 0;
  for (int k = -90; k <= 90; ++k) {
    const double x = k * step;
    sum += std::exp(-x * x / 2) * std::pow(normal_below(x + w) - normal_below(x), static_cast<double>(n - 1));
  }
  return static_cast<double>(n) * sum * step / std::sqrt(2 * std::numbers::pi);
}

struct RangeMoments {
  double mean = 0;
  double deviation = 0;
};

// E(W) = integral of P(W > w) dw, E(W^2) = integral of 2 w P(W > w) dw.
RangeMoments range_moments(std::size_t n) {
  double first = 0, second = 0;
  for (const auto& [w, weight] : numerics::gauss_legendre(80, 0, 2 * range_reach)) {
    const double above = 1 - range_below(w, n);
    first += weight * above;
    second += weight * 2 * w * above;
  }
  return {first, std::sqrt(second - first * first)};
}

ChartConstants compute(std::size_t size) {
  const auto n = static_cast<double>(size);
  const auto [d2, d3] = range_moments(size);
  const double c4 = std::sqrt(2 / (n - 1)) * std::exp(std::lgamma(n / 2) - std::lgamma((n - 1) / 2));
  const double range_share = 3 * d3 / d2;
  const double s_share = 3 * std::sqrt(1 - c4 * c4) / c4;
  return {.n = size,
          .d2 = d2,
          .d3 = d3,
          .c4 = c4,
          .A2 = 3 / (d2 * std::sqrt(n)),
          .A3 = 3 / (c4 * std::sqrt(n)),
          .D3 = std::max(0.0, 1 - range_share),
          .D4 = 1 + range_share,
          .B3 = std::max(0.0, 1 - s_share),
          .B4 = 1 + s_share,
          .E2 = 3 / d2};
}

}  // namespace

Result<ChartConstants> chart_constants(std::size_t size) {
  if (size < subgroup_size_min || size > subgroup_size_max) {
    return refuse(ErrorCode::bad_input, "a subgroup has {} to {} values, not {}", subgroup_size_min, subgroup_size_max,
                  size);
  }
  return compute(size);
}

}  // namespace hw::condition
