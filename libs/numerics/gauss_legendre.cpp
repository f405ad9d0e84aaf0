#include "libs/numerics/gauss_legendre.h"

#include <cmath>
#include <numbers>

#include "libs/values/assert.h"

namespace hw::numerics {
namespace {

struct LegendreValue {
  double value = 0;
  double slope = 0;
};

// P_n(x) by its recurrence (k + 1) P_{k+1} = (2k + 1) x P_k - k P_{k-1}, and P_n'(x).
LegendreValue legendre(std::size_t count, double x) {
  double before = 1, now = x;
  for (std::size_t k = 1; k < count; ++k) {
    const auto order = static_cast<double>(k);
    const double next = ((2 * order + 1) * x * now - order * before) / (order + 1);
    before = now;
    now = next;
  }
  return {now, static_cast<double>(count) * (x * now - before) / (x * x - 1)};
}

}  // namespace

std::vector<QuadratureNode> gauss_legendre(std::size_t count, double from, double to) {
  HW_ASSERT(count >= 1 && count <= 2000 && from < to, "1 to 2000 nodes on an interval");
  constexpr int newton_steps_max = 100;
  std::vector<QuadratureNode> nodes(count);
  const double half = (to - from) / 2;
  const auto order = static_cast<double>(count);
  for (std::size_t n = 0; n < count; ++n) {
    double x = -std::cos(std::numbers::pi * (static_cast<double>(n) + 0.75) / (order + 0.5));
    LegendreValue here = legendre(count, x);
    for (int step = 0; step < newton_steps_max && std::abs(here.value / here.slope) > 1e-16; ++step) {
      x -= here.value / here.slope;
      here = legendre(count, x);
    }
    nodes[n] = {from + half * (1 + x), 2 * half / ((1 - x * x) * here.slope * here.slope)};
  }
  return nodes;
}

}  // namespace hw::numerics
