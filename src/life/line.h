#pragma once
// A life distribution as a straight line over the logarithm of age: z(y) = slope y + level, y = log(age) - origin.
//
//   Weibull      z is the log of the cumulative hazard: slope = shape, level = shape (origin - log scale)
//   lognormal    z is the normal deviate: slope = 1 / sigma, level = (origin - mu) / sigma
//
// In (slope, level) the log-likelihood of lives censored in any way is concave (Burridge 1981, Journal of the Royal
// Statistical Society B 43, for log-concave densities; from memory), so it has one maximum, and Newton's steps,
// shortened where they overshoot, reach it from anywhere.

namespace hw::life {

struct Line {
  double slope = 1;
  double level = 0;
};

// The log-likelihood at a line with its first and second derivatives.
struct Terms {
  double value = 0;
  double by_slope = 0;
  double by_level = 0;
  double by_slope2 = 0;
  double by_slope_level = 0;
  double by_level2 = 0;
};

}  // namespace hw::life
