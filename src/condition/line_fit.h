#pragma once
// A straight line through readings by least squares, with what it says of a new reading.
//
//   slope b1 = Sxy / Sxx    intercept b0 = mean y - b1 mean x    residual_sd s = sqrt(rss / (n - 2))
//   confidence interval of the mean at x0    b0 + b1 x0 +- t s sqrt(1/n + (x0 - mean x)^2 / Sxx)
//   prediction interval of one new reading   the same with 1 + 1/n + ...
//
// t is Student's two-sided quantile with n - 2 degrees. Certified results: NIST StRD (Norris, NoInt1, NoInt2). It takes
// readings as independent with equal scatter; where they wander (each near the one before), the intervals are too
// narrow.

#include <array>
#include <span>
#include <vector>

#include "libs/values/result.h"

namespace hw::condition {

struct LineFit {
  std::size_t n = 0;
  double intercept = 0, slope = 0, se_intercept = 0, se_slope = 0;
  double residual_sd = 0, r2 = 0, rss = 0, slope_t = 0;
  double x_mean = 0, y_mean = 0, sxx = 0;

  double at(double x) const { return y_mean + slope * (x - x_mean); }
  double degrees() const { return static_cast<double>(n) - 2; }
};

struct LinePrediction {
  double x = 0, fit = 0;
  std::array<double, 2> ci{}, pi{};
};

// Through the origin: y = slope x; r2 is the uncentred one, 1 - rss / sum y^2. n - 1 degrees.
struct OriginFit {
  double slope = 0, se_slope = 0, residual_sd = 0, r2_uncentred = 0;
};

// Refuses fewer than three points, series of different length, values that are not finite, and x that are all alike.
Result<LineFit> fit_line(std::span<const double> x, std::span<const double> y);
// `conf` lies in (0, 1).
LinePrediction predict(const LineFit& fit, double x, double conf);
// Refuses fewer than two points and x that are all 0.
Result<OriginFit> fit_through_origin(std::span<const double> x, std::span<const double> y);
// P(a slope at least as far from 0, on its side, where there is none): the one-sided p.
double slope_p_one_sided(const LineFit& fit);
// Refuses what is no confidence: 0.5 to 0.9999.
Result<void> check_confidence(double conf);

}  // namespace hw::condition
