#include "src/condition/ewma_chart.h"

#include <cmath>

#include "src/condition/series.h"

namespace hw::condition {

Result<void> check_design(const EwmaDesign& design) {
  if (!(design.lam > 0 && design.lam <= 1)) {
    return refuse(ErrorCode::bad_input, "lambda: a number above 0 up to 1, not {}", design.lam);
  }
  if (!(design.sigma > 0 && design.sigma <= series_value_max)) {
    return refuse(ErrorCode::bad_input, "sigma: a standard deviation above 0, not {}", design.sigma);
  }
  if (!(design.L > 0 && design.L <= 10)) {
    return refuse(ErrorCode::bad_input, "L: a number above 0 up to 10, not {}", design.L);
  }
  return check_series({&design.target, 1}, "target", 1);
}

Result<EwmaChart> ewma_chart(std::span<const double> x, const EwmaDesign& design) {
  HW_TRY(check_design(design));
  HW_TRY(check_series(x, "x", 1));
  const double reach = design.L * design.sigma * std::sqrt(design.lam / (2 - design.lam));
  EwmaChart chart{.series = {}, .ucl = design.target + reach, .lcl = design.target - reach, .signals_asymptotic = {}};
  double z = design.target;
  double forgotten = 1;  // (1 - lam)^(2 i)
  for (std::size_t n = 0; n < x.size(); ++n) {
    z = design.lam * x[n] + (1 - design.lam) * z;
    forgotten *= (1 - design.lam) * (1 - design.lam);
    const double reach_now = reach * std::sqrt(1 - forgotten);
    chart.series.push_back({z, design.target - reach_now, design.target + reach_now});
    if (std::abs(z - design.target) > reach) chart.signals_asymptotic.push_back(n + 1);
    if (std::abs(z - design.target) > reach_now) chart.signals_time_varying.push_back(n + 1);
  }
  return chart;
}

}  // namespace hw::condition
