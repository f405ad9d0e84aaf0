#pragma once
// The normal distribution and Student's, as far as a forecast needs them.

namespace hw::numerics {

// P(Z <= z) for a standard normal Z; exact to the last digits of a double.
double normal_below(double z);

// The same from a table, several times as fast; off by less than 1e-9.
double normal_below_fast(double z);

// log P(Z > z), also where P(Z > z) is too small for a double.
double log_normal_above(double z);

// The density at z divided by P(Z > z); about z for large z.
double normal_hazard(double z);

// z with P(Z <= z) = probability, which lies in (0, 1).
double normal_quantile(double probability);

// Student's distribution with that many degrees of freedom (above 0.5) by the normal one at
//   z = t (1 - 1/(4 df)) / sqrt(1 + t^2 / (2 df)),
// Abramowitz and Stegun 26.7.8 (from memory). Off by less than 0.0075 from 4 degrees of freedom on.
class Student {
 public:
  explicit Student(double degrees);
  // P(T <= t).
  double below(double t) const;

 private:
  double factor_;
  double bend_;
};

}  // namespace hw::numerics
