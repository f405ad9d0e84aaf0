#include "src/condition/line_fit.h"

#include <cmath>

#include "libs/numerics/student.h"
#include "src/condition/series.h"

namespace hw::condition {

Result<void> check_confidence(double conf) {
  if (conf >= 0.5 && conf <= 0.9999) return {};
  return refuse(ErrorCode::bad_input, "conf: a confidence from 0.5 to 0.9999, not {}", conf);
}

// Sums are taken about the means: that keeps the certified nine digits.
Result<LineFit> fit_line(std::span<const double> x, std::span<const double> y) {
  HW_TRY(check_pairs(x, y, 3));
  LineFit fit{.n = x.size(), .x_mean = mean_of(x), .y_mean = mean_of(y)};
  double sxy = 0, syy = 0;
  for (std::size_t n = 0; n < x.size(); ++n) {
    const double dx = x[n] - fit.x_mean, dy = y[n] - fit.y_mean;
    fit.sxx += dx * dx;
    sxy += dx * dy;
    syy += dy * dy;
  }
  if (!(fit.sxx > 0)) return refuse(ErrorCode::bad_input, "x: all values are alike, so there is no slope");
  fit.slope = sxy / fit.sxx;
  fit.intercept = fit.y_mean - fit.slope * fit.x_mean;
  for (std::size_t n = 0; n < x.size(); ++n) {
    const double rest = y[n] - fit.at(x[n]);
    fit.rss += rest * rest;
  }
  const auto count = static_cast<double>(fit.n);
  fit.residual_sd = std::sqrt(fit.rss / fit.degrees());
  fit.se_slope = fit.residual_sd / std::sqrt(fit.sxx);
  fit.se_intercept = fit.residual_sd * std::sqrt(1 / count + fit.x_mean * fit.x_mean / fit.sxx);
  fit.r2 = syy > 0 ? 1 - fit.rss / syy : 1;
  fit.slope_t = fit.se_slope > 0 ? fit.slope / fit.se_slope : 0;
  return fit;
}

LinePrediction predict(const LineFit& fit, double x, double conf) {
  const double t = numerics::student_quantile((1 + conf) / 2, fit.degrees());
  const double spread = 1 / static_cast<double>(fit.n) + (x - fit.x_mean) * (x - fit.x_mean) / fit.sxx;
  const double of_mean = t * fit.residual_sd * std::sqrt(spread);
  const double of_reading = t * fit.residual_sd * std::sqrt(1 + spread);
  const double y = fit.intercept + fit.slope * x;
  return {x, y, {y - of_mean, y + of_mean}, {y - of_reading, y + of_reading}};
}

Result<OriginFit> fit_through_origin(std::span<const double> x, std::span<const double> y) {
  HW_TRY(check_pairs(x, y, 2));
  double sxx = 0, sxy = 0, syy = 0, rss = 0;
  for (std::size_t n = 0; n < x.size(); ++n) {
    sxx += x[n] * x[n];
    sxy += x[n] * y[n];
    syy += y[n] * y[n];
  }
  if (!(sxx > 0)) return refuse(ErrorCode::bad_input, "x: all values are 0, so there is no slope");
  OriginFit fit{.slope = sxy / sxx};
  for (std::size_t n = 0; n < x.size(); ++n) {
    const double rest = y[n] - fit.slope * x[n];
    rss += rest * rest;
  }
  fit.residual_sd = std::sqrt(rss / static_cast<double>(x.size() - 1));
  fit.se_slope = fit.residual_sd / std::sqrt(sxx);
  fit.r2_uncentred = syy > 0 ? 1 - rss / syy : 1;
  return fit;
}

double slope_p_one_sided(const LineFit& fit) {
  if (fit.se_slope > 0) return numerics::student_above(std::abs(fit.slope_t), fit.degrees());
  return fit.slope == 0 ? 0.5 : 0;
}

}  // namespace hw::condition
