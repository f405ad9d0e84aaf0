#include "src/condition/first_passage.h"

#include <algorithm>
#include <cmath>

#include "libs/numerics/normal_tail.h"
#include "libs/values/assert.h"

namespace hw::condition {

double first_passage_below(const Drift& drift, double d, double t) {
  HW_ASSERT(d > 0 && drift.sigma > 0, "a distance and a scatter above 0");
  if (!(t > 0)) return 0;
  const double scatter = drift.sigma * std::sqrt(t);
  const double direct = numerics::normal_below((drift.nu * t - d) / scatter);
  const double log_returned =
      2 * drift.nu * d / (drift.sigma * drift.sigma) + numerics::log_normal_above((drift.nu * t + d) / scatter);
  return std::min(1.0, direct + std::exp(log_returned));
}

Result<FirstPassage> first_passage(const Drift& drift, double d) {
  if (!(d > 0 && std::isfinite(d))) return refuse(ErrorCode::bad_input, "d: a distance above 0, not {}", d);
  if (!(drift.nu > 0 && std::isfinite(drift.nu))) {
    return refuse(ErrorCode::bad_input, "nu: a drift toward the limit, above 0, not {}", drift.nu);
  }
  if (!(drift.sigma > 0 && std::isfinite(drift.sigma))) {
    return refuse(ErrorCode::bad_input, "sigma: a scatter above 0, not {}", drift.sigma);
  }
  const double mean = d / drift.nu;
  const double shape = (d / drift.sigma) * (d / drift.sigma);
  return FirstPassage{mean, shape, std::sqrt(mean / shape) * mean};
}

std::optional<double> first_passage_quantile(const Drift& drift, double d, double probability) {
  HW_ASSERT(probability > 0 && probability < 1, "a probability inside (0, 1)");
  const double ever = drift.nu >= 0 ? 1 : std::exp(2 * drift.nu * d / (drift.sigma * drift.sigma));
  if (probability >= ever) return std::nullopt;
  double earlier = (d / drift.sigma) * (d / drift.sigma),
         later = earlier;  // the time in which scatter alone goes so far
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
