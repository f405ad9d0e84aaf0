#include "src/condition/line_crossing.h"

#include <algorithm>
#include <cmath>

#include "libs/numerics/student.h"

namespace hw::condition {
namespace {

// The x at which |limit - line| = t s sqrt(extra + 1/n + (x - mean x)^2 / Sxx). With u = x - mean x, d = limit - mean y
// and g = (t se_slope)^2:  (b1^2 - g) u^2 - 2 d b1 u + d^2 - t^2 s^2 (extra + 1/n) = 0.
std::optional<std::array<double, 2>> band_meets(const LineFit& fit, double limit, double t, double extra) {
  const double d = limit - fit.y_mean;
  const double half_width = t * fit.residual_sd;
  const double a = fit.slope * fit.slope - half_width * half_width / fit.sxx;
  const double b = -d * fit.slope;
  const double c = d * d - half_width * half_width * (extra + 1 / static_cast<double>(fit.n));
  const double discriminant = b * b - a * c;
  if (a == 0 || discriminant < 0) return std::nullopt;
  const double q = -b - std::copysign(std::sqrt(discriminant), b);
  std::array<double, 2> roots = {q / a, q == 0 ? 0 : c / q};
  if (!std::isfinite(roots[0]) || !std::isfinite(roots[1])) return std::nullopt;
  std::sort(roots.begin(), roots.end());
  return std::array<double, 2>{fit.x_mean + roots[0], fit.x_mean + roots[1]};
}

// Of the two meetings, those of the bound that lies toward the limit have the line still short of it. A bound that
// widens faster than the line rises (a < 0) has one before the readings too; the one sought is the later.
std::optional<double> bound_meets(const LineFit& fit, double limit, double conf) {
  if (!(fit.residual_sd > 0)) return fit.x_mean + (limit - fit.y_mean) / fit.slope;  // readings exactly on a line
  const double t = numerics::student_quantile(conf, fit.degrees());
  const auto meetings = band_meets(fit, limit, t, 1);
  if (!meetings) return std::nullopt;
  const double side = fit.slope > 0 ? 1 : -1;
  std::optional<double> found;
  for (const double x : *meetings) {
    if (side * (limit - fit.at(x)) >= 0) found = x;
  }
  return found;
}

}  // namespace

LineCrossing cross_limit(const LineFit& fit, double limit, double conf) {
  LineCrossing crossing{};
  if (fit.slope == 0) return crossing;
  crossing.line_crossing = fit.x_mean + (limit - fit.y_mean) / fit.slope;
  crossing.pi_crossing = bound_meets(fit, limit, conf);
  const double t = numerics::student_quantile((1 + conf) / 2, fit.degrees());
  if (std::abs(fit.slope) > t * fit.se_slope) crossing.fieller = band_meets(fit, limit, t, 0);
  return crossing;
}

}  // namespace hw::condition
