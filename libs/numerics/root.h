#pragma once
// The root of a function within a bracket, by Newton's method, by halving where Newton leaves the bracket or is slow.

#include <cmath>

#include "libs/values/assert.h"

namespace hw::numerics {

struct Sloped {
  double value = 0;
  double slope = 0;  // its derivative; 0 where it is unknown, then halving does the step
};

// x between a and b (in any order) where function(x).value changes sign, to within `tolerance` (above 0) of x. The
// signs at a and b must differ; a value of 0 has either sign. `function` takes an x between a and b and gives a Sloped.
template <class Function>
double find_root(const Function& function, double a, double b, double tolerance) {
  const bool rises = function(b).value > 0;
  double low = rises ? a : b;   // where the value is not above 0
  double high = rises ? b : a;  // where it is not below 0
  double x = 0.5 * (a + b);
  double step_before = std::abs(b - a);
  for (int round = 0; round < 200; ++round) {
    const Sloped at = function(x);
    HW_ASSERT(!std::isnan(at.value), "a function that has a value within the bracket");
    if (at.value == 0) return x;
    (at.value < 0 ? low : high) = x;
    double next = at.slope != 0 ? x - at.value / at.slope : x;
    const bool is_inside = (next - low) * (next - high) < 0;
    if (!is_inside || std::abs(next - x) > 0.5 * step_before) next = 0.5 * (low + high);
    step_before = std::abs(next - x);
    x = next;
    if (step_before <= tolerance || std::abs(high - low) <= tolerance) return x;
  }
  return x;
}

}  // namespace hw::numerics
