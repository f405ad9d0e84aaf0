#include "libs/numerics/normal_tail.h"

#include <array>
#include <cmath>
#include <numbers>

#include <boost/math/special_functions/erf.hpp>

#include "libs/values/assert.h"

namespace hw::numerics {

double normal_below(double z) { return 0.5 * std::erfc(-z / std::numbers::sqrt2); }

double normal_hazard(double z) {
  if (z < 20) return std::exp(-z * z / 2) / std::sqrt(2 * std::numbers::pi) / normal_below(-z);
  // Laplace's continued fraction z + 1/(z + 2/(z + 3/(z + ...))), Abramowitz and Stegun 26.2.14 (from memory).
  double fraction = z;
  for (int n = 12; n > 0; --n) fraction = z + n / fraction;
  return fraction;
}

double log_normal_above(double z) {
  if (z < 20) return std::log(normal_below(-z));
  return -z * z / 2 - std::log(std::sqrt(2 * std::numbers::pi) * normal_hazard(z));
}

namespace {

constexpr int steps_per_unit = 64;
constexpr int units = 6;

// The distribution and its density on a grid from 0 to 6: between two points a cubic meets both at both ends.
struct Point {
  double below, density;
};
using Table = std::array<Point, units * steps_per_unit + 2>;

Table make_table() {
  Table table{};
  for (std::size_t n = 0; n < table.size(); ++n) {
    const double z = static_cast<double>(n) / steps_per_unit;
    table[n] = {normal_below(z), std::exp(-z * z / 2) / std::sqrt(2 * std::numbers::pi) / steps_per_unit};
  }
  return table;
}

}  // namespace

double normal_below_fast(double z) {
  static const Table table = make_table();
  const double scaled = std::abs(z) * steps_per_unit;
  if (!(scaled < units * steps_per_unit)) return z < 0 ? 0 : 1;
  const auto cell = static_cast<std::size_t>(scaled);
  const Point& a = table[cell];
  const Point& b = table[cell + 1];
  const double t = scaled - static_cast<double>(cell);
  const double rise = b.below - a.below;
  const double upper =
      a.below + t * (a.density + t * (3 * rise - 2 * a.density - b.density + t * (a.density + b.density - 2 * rise)));
  return z < 0 ? 1 - upper : upper;
}

double normal_quantile(double probability) {
  HW_ASSERT(probability > 0 && probability < 1, "a probability inside (0, 1)");
  return -std::numbers::sqrt2 * boost::math::erfc_inv(2 * probability);
}

Student::Student(double degrees) : factor_(1 - 0.25 / degrees), bend_(0.5 / degrees) {
  HW_ASSERT(degrees > 0.5, "more than half a degree of freedom");
}

double Student::below(double t) const { return normal_below_fast(t * factor_ / std::sqrt(1 + t * t * bend_)); }

}  // namespace hw::numerics
