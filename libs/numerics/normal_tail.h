#pragma once
// The normal distribution and Student's, as far as a forecast needs them.

namespace hw::numerics {

// P(Z <= z) for a standard normal Z; exact to the last digits of a double.
double normal_below(double z);

// z with P(Z <= z) = probability, which lies in (0, 1).
double normal_quantile(double probability);

// P(T <= t) for Student's T with that many degrees of freedom (> 0.5), by the normal distribution at
//   z = t (1 - 1/(4 df)) / sqrt(1 + t^2 / (2 df)),
// Abramowitz and Stegun 26.7.8 (from memory). Off by less than 0.003 from 4 degrees of freedom on.
double student_below(double t, double degrees);

}  // namespace hw::numerics
