#include "src/condition/first_passage.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "libs/numerics/normal_tail.h"
#include "libs/values/assert.h"

namespace hw::condition {
namespace {

constexpr double passage_size_min = 1e-30;
constexpr double passage_size_max = 1e30;

bool is_passage_size(double value) { return value >= passage_size_min && value <= passage_size_max; }

// P(the limit was reached, and by t the value is short of it again): the second term of F.
double returned(const Drift& drift, double d, double t) {
  const double scatter = drift.sigma * std::sqrt(t);
  const double a = (drift.nu * t - d) / scatter, b = (drift.nu * t + d) / scatter;
  if (b > 0) return std::exp(-a * a / 2) / (std::sqrt(2 * std::numbers::pi) * numerics::normal_hazard(b));
  return std::exp(2 * drift.nu * d / (drift.sigma * drift.sigma) + numerics::log_normal_above(b));
}

}  // namespace

Result<void> check_passage(const Drift& drift, double d) {
  if (!is_passage_size(d)) return refuse(ErrorCode::bad_input, "d: a distance above 0 (1e-30 to 1e30), not {}", d);
  if (!(std::abs(drift.nu) <= passage_size_max)) {
    return refuse(ErrorCode::bad_input, "nu: a drift up to 1e30, not {}", drift.nu);
  }
  if (is_passage_size(drift.sigma)) return {};
  return refuse(ErrorCode::bad_input, "sigma: a scatter above 0 (1e-30 to 1e30), not {}", drift.sigma);
}

double first_passage_below(const Drift& drift, double d, double t) {
  HW_ASSERT(d > 0 && drift.sigma > 0, "a distance and a scatter above 0");
  if (!(t > 0)) return 0;
  const double direct = numerics::normal_below((drift.nu * t - d) / (drift.sigma * std::sqrt(t)));
  return std::min(1.0, direct + returned(drift, d, t));
}

Result<FirstPassage> first_passage(const Drift& drift, double d) {
  HW_TRY(check_passage(drift, d));
  if (drift.nu < passage_size_min) {
    return refuse(ErrorCode::bad_input, "nu: a drift toward the limit, above 0, not {}", drift.nu);
  }
  const double mean = d / drift.nu;
  const double shape = (d / drift.sigma) * (d / drift.sigma);
  return FirstPassage{mean, shape, std::sqrt(mean / shape) * mean};
}

std::optional<double> first_passage_quantile(const Drift& drift, double d, double probability) {
  HW_ASSERT(probability > 0 && probability < 1, "a probability inside (0, 1)");
  const double ever = drift.nu >= 0 ? 1 : std::exp(2 * drift.nu * d / (drift.sigma * drift.sigma));
  if (probability >= ever) return std::nullopt;
  double earlier = (d / drift.sigma) * (d / drift.sigma);  // the time in which scatter alone goes so far
  double later = earlier;
  while (first_passage_below(drift, d, earlier) > probability) earlier /= 4;
  while (first_passage_below(drift, d, later) < probability && later < 1e300) later *= 4;
  constexpr int halvings = 200;  // of the logarithm: until no double lies between
  for (int n = 0; n < halvings && later / earlier > 1 + 1e-14; ++n) {
    const double middle = std::sqrt(earlier) * std::sqrt(later);
    (first_passage_below(drift, d, middle) < probability ? earlier : later) = middle;
  }
  return later;
}

}  // namespace hw::condition
