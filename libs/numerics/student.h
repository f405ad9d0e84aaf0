#pragma once
// Student's distribution to the last digits, by Boost.Math; normal_tail.h has a fast one that is near enough for
// forecasts.

namespace hw::numerics {

// P(T > t) with `degrees` of freedom, which are above 0.
double student_above(double t, double degrees);

// t with P(T <= t) = probability, which lies in (0, 1).
double student_quantile(double probability, double degrees);

}  // namespace hw::numerics
