#pragma once
// The gamma distribution and chi-square, its special case, by Boost.Math.

namespace hw::numerics {

// P(X <= x) for X of the gamma distribution with that shape (above 0) and scale 1; x at least 0.
double gamma_below(double shape, double x);

// P(X <= x) and P(X > x) for X of chi-square with that many degrees of freedom (above 0); x at least 0.
double chi_squared_below(double x, double degrees);
double chi_squared_above(double x, double degrees);

// x with P(X <= x) = probability, which lies in (0, 1).
double chi_squared_quantile(double probability, double degrees);

}  // namespace hw::numerics
