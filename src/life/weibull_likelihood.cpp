#include "src/life/weibull_likelihood.h"

#include <cmath>
#include <numbers>

namespace hw::life {
namespace {

// Of -weight H: its derivatives are H with powers of y.
void add_hazards(Terms& terms, std::span<const LogAge> ages, const Line& line) {
  double sum = 0, sum_y = 0, sum_y2 = 0;
  for (const LogAge& age : ages) {
    const double hazard = age.weight * std::exp(line.slope * age.y + line.level);
    sum += hazard;
    sum_y += hazard * age.y;
    sum_y2 += hazard * age.y * age.y;
  }
  terms.value -= sum;
  terms.by_slope -= sum_y;
  terms.by_level -= sum;
  terms.by_slope2 -= sum_y2;
  terms.by_slope_level -= sum_y;
  terms.by_level2 -= sum;
}

// The hazard D between two looks with its derivatives: D by level is D itself.
struct GapHazard {
  double sum = 0, y = 0, y2 = 0;
};

GapHazard hazard_between(const LogGap& gap, const Line& line) {
  const double upper = std::exp(line.slope * gap.y_upper + line.level);
  if (std::isinf(gap.y_lower)) return {upper, gap.y_upper * upper, gap.y_upper * gap.y_upper * upper};
  const double width = gap.y_upper - gap.y_lower;
  const double sum = upper * -std::expm1(-line.slope * width);
  return {sum, gap.y_lower * sum + width * upper,
          gap.y_lower * gap.y_lower * sum + width * (gap.y_upper + gap.y_lower) * upper};
}

// Of weight log(1 - exp(-D)); with its first derivative p = 1 / (exp(D) - 1) and second -p (1 + p).
void add_gap(Terms& terms, const LogGap& gap, const Line& line) {
  const GapHazard hazard = hazard_between(gap, line);
  if (hazard.sum > 700) return;  // it failed in between for certain
  const double p = 1 / std::expm1(hazard.sum);
  const double p2 = -p * (1 + p);
  terms.value += gap.weight * std::log(-std::expm1(-hazard.sum));
  terms.by_slope += gap.weight * p * hazard.y;
  terms.by_level += gap.weight * p * hazard.sum;
  terms.by_slope2 += gap.weight * (p2 * hazard.y * hazard.y + p * hazard.y2);
  terms.by_slope_level += gap.weight * (p2 * hazard.y * hazard.sum + p * hazard.y);
  terms.by_level2 += gap.weight * (p2 * hazard.sum * hazard.sum + p * hazard.sum);
}

}  // namespace

Terms WeibullLikelihood::at(const Line& line) const {
  const double exact = lives_.counts.exact;
  Terms terms;
  terms.value = exact * (std::log(line.slope) + line.level - lives_.origin) + (line.slope - 1) * lives_.exact_y_sum;
  terms.by_slope = exact / line.slope + lives_.exact_y_sum;
  terms.by_slope2 = -exact / (line.slope * line.slope);
  terms.by_level = exact;
  add_hazards(terms, lives_.exact, line);
  add_hazards(terms, lives_.survived, line);
  for (const LogGap& gap : lives_.gaps) {
    if (std::isfinite(gap.y_lower)) {
      const LogAge lower{gap.y_lower, gap.weight};
      add_hazards(terms, {&lower, 1}, line);
    }
    add_gap(terms, gap, line);
  }
  return terms;
}

Line WeibullLikelihood::start() const {
  // The logarithm of a Weibull life has the standard deviation pi / sqrt(6) / shape.
  double slope = lives_.failed_y_spread > 1e-9 ? std::numbers::pi / std::sqrt(6.0) / lives_.failed_y_spread : 1;
  for (;; slope *= 0.5) {
    double sum = 0;
    for (const LogAge& age : lives_.exact) sum += age.weight * std::exp(slope * age.y);
    for (const LogAge& age : lives_.survived) sum += age.weight * std::exp(slope * age.y);
    for (const LogGap& gap : lives_.gaps) sum += gap.weight * std::exp(slope * gap.y_upper);
    if (sum > 0 && std::isfinite(sum)) return {slope, std::log(lives_.counts.failures / sum)};
  }
}

Weibull WeibullLikelihood::weibull(const Line& line) const {
  return {line.slope, std::exp(lives_.origin - line.level / line.slope)};
}

Line WeibullLikelihood::line(const Weibull& life) const {
  return {life.shape, life.shape * (lives_.origin - std::log(life.scale))};
}

}  // namespace hw::life
