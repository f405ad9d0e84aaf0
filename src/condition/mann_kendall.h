#pragma once
// Whether readings rise or fall at all, whatever the shape: the test of Mann (1945) and Kendall (1975).
//
//   S = sum over pairs of sign(x_b - x_a) sign(y_b - y_a)    z = (S - sign S) / sqrt(variance), 0 for S = 0
//   variance without ties  n (n - 1) (2n + 5) / 18; ties are corrected for as Kendall does, in x and in y
//   tau_b = S / sqrt(pairs untied in x * pairs untied in y)
//
// The exact one-sided p is P(S at least as far on its side) when every order of y is as likely; ties in y are counted
// with (the number of inversions of a multiset has the q-multinomial as its generating function; Stanley, Enumerative
// Combinatorics 1.7, from memory). US EPA QA/G-9 has worked examples. Readings that follow closely in time are not
// independent, and the test then sees trends where there are none.

#include <optional>
#include <span>

#include "libs/values/result.h"

namespace hw::condition {

struct MannKendall {
  long long S = 0;
  double variance = 0, z = 0, p_two_sided = 1, tau_b = 0;
  std::optional<double> p_exact_one_sided = {};  // up to 10 points, x all different
};

// Refuses fewer than two points, more than paired_points_max, values that are not finite, and x that are all alike. The
// order of the points does not matter.
Result<MannKendall> mann_kendall(std::span<const double> x, std::span<const double> y);

}  // namespace hw::condition
