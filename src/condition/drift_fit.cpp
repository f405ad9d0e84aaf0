#include "src/condition/drift_fit.h"

#include <cmath>

#include "src/condition/series.h"

namespace hw::condition {

Result<DriftFit> fit_drift(std::span<const double> t, std::span<const double> x) {
  HW_TRY(check_series(t, "t", 3));
  HW_TRY(check_pairs(t, x, 3));
  for (std::size_t n = 1; n < t.size(); ++n) {
    if (t[n] > t[n - 1]) continue;
    return refuse(ErrorCode::bad_input, "t[{}]: {} does not come after {}; each reading has its own, later time", n,
                  t[n], t[n - 1]);
  }
  DriftFit fit{.span = t.back() - t.front(), .m = t.size() - 1};
  fit.nu = (x.back() - x.front()) / fit.span;
  double sum = 0;
  for (std::size_t n = 1; n < t.size(); ++n) {
    const double dt = t[n] - t[n - 1];
    const double rest = x[n] - x[n - 1] - fit.nu * dt;
    sum += rest * rest / dt;
  }
  fit.sigma_mle = std::sqrt(sum / static_cast<double>(fit.m));
  fit.sigma_unbiased = std::sqrt(sum / static_cast<double>(fit.m - 1));
  fit.se_nu = fit.sigma_unbiased / std::sqrt(fit.span);
  return fit;
}

}  // namespace hw::condition
