#include "src/life/weibull_difference.h"

#include <algorithm>

#include "libs/numerics/gamma_tail.h"
#include "src/life/weibull_fit.h"

namespace hw::life {
namespace {

constexpr double excess_of_one_failure = 1.75;

}  // namespace

Result<WeibullDifference> compare_weibull(std::span<const std::vector<Observed>> groups) {
  WeibullDifference test;
  std::vector<Observed> all;
  double own = 0, failures = 0, inverse_failures = 0;
  int taking_part = 0;
  for (const auto& group : groups) {
    const auto fit = fit_weibull(WeibullLikelihood(group));
    test.takes_part.push_back(fit && fit->counts.failures >= failures_min);
    if (!test.takes_part.back()) continue;
    own += fit->loglik;
    failures += fit->counts.failures;
    inverse_failures += 1 / fit->counts.failures;
    all.insert(all.end(), group.begin(), group.end());
    ++taking_part;
  }
  if (taking_part < 2) {
    return refuse(ErrorCode::bad_input, Saying{"life-few-to-compare", {}, {{"least", failures_min}}},
                  "no Weibull test: it needs two groups with {} failures each, and a fit", failures_min);
  }
  HW_TAKE(pooled, fit_weibull(WeibullLikelihood(all)));
  test.statistic = std::max(0.0, 2 * (own - pooled.loglik));
  test.degrees = 2 * (taking_part - 1);
  test.correction = 1 + excess_of_one_failure * (inverse_failures - 1 / failures) / test.degrees;
  test.p = numerics::chi_squared_above(test.statistic / test.correction, test.degrees);
  return test;
}

}  // namespace hw::life
