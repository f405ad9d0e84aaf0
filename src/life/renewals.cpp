#include "src/life/renewals.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include "libs/values/assert.h"

namespace hw::life {
namespace {

constexpr std::size_t cells = 1000;  // of the coarse grid

// v(t) = source(t) + integral of v(t - x) dF(x) along the grid; within a cell v counts with the mean of its ends, which
// is off by the square of the cell's width.
std::vector<double> renew(const std::vector<double>& source, const std::vector<double>& share) {
  std::vector<double> v(source.size());
  v[0] = source[0];
  for (std::size_t i = 1; i < v.size(); ++i) {
    double sum = 0;
    for (std::size_t j = 2; j <= i; ++j) sum += share[j] * (v[i - j] + v[i - j + 1]);
    v[i] = (source[i] + 0.5 * (sum + share[1] * v[i - 1])) / (1 - 0.5 * share[1]);
  }
  return v;
}

}  // namespace

std::vector<Renewals> renewals_along(const Weibull& life, double age, std::size_t count) {
  const Weibull unit{life.shape, 1};
  std::vector<double> below(count + 1), density(count + 1), share(count + 1);
  for (std::size_t i = 0; i <= count; ++i) {
    const double t = age / life.scale * static_cast<double>(i) / static_cast<double>(count);
    below[i] = -std::expm1(-std::pow(t, unit.shape));
    density[i] = unit.shape >= 1 && below[i] < 1 ? hazard(unit, t) * reliability(unit, t) / life.scale : 0;
    if (i > 0) share[i] = below[i] - below[i - 1];
  }
  const std::vector<double> expected = renew(below, share);
  const std::vector<double> rate = renew(density, share);
  std::vector<Renewals> along;
  for (std::size_t i = 0; i <= count; ++i) along.push_back({expected[i], rate[i]});
  return along;
}

Renewals renewals_by(const Weibull& life, double age) {
  HW_ASSERT(age >= 0 && age <= 50 * life.scale, "an age up to 50 times the scale");
  if (age == 0) return {0, life.shape == 1 ? 1 / life.scale : 0};
  const auto count = cells * static_cast<std::size_t>(std::max(1.0, std::ceil(age / life.scale / 2)));
  const Renewals coarse = renewals_along(life, age, count).back();
  const Renewals fine = renewals_along(life, age, 2 * count).back();
  return {(4 * fine.expected - coarse.expected) / 3, (4 * fine.density - coarse.density) / 3};
}

}  // namespace hw::life
