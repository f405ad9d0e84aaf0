#pragma once
// How long a chart runs until it calls, on average, when values are independent and normal: without a shift the
// distance between false alarms, with a shift the delay. Everything in standard deviations of single values; both
// charts begin at zero (zero-state). Solved as Fredholm integral equations by Nystroem's method on Gauss-Legendre nodes
// (Knoth's and Montgomery's tables; the equations from memory, checked against R's package spc 0.6.7).

#include "libs/values/result.h"

namespace hw::condition {

// Longer ones are refused: doubles no longer tell them apart.
inline constexpr double run_length_max = 1e12;

struct CusumRunLength {
  double one = 0;  // of the upper sum alone
  double two = 0;  // of both: 1 / two = 1 / one + 1 / (the lower one's), exact for k > 0 (Kemp 1961; from memory)
};

// k 0 to 5, h above 0 up to 40, shift -10 to 10; others are refused.
//   A(s) = 1 + A(0) Phi(k - s - shift) + integral over y in (0, h) of A(y) phi(y + k - s - shift)
Result<CusumRunLength> cusum_run_length(double k, double h, double shift);

// With limits fixed at their asymptotic place. lam 0.01 to 1, L above 0 up to 6, shift -10 to 10; others are refused.
//   A(u) = 1 + 1/lam integral over y in (-c, c) of A(y) phi((y - (1 - lam) u) / lam - shift), c = L sqrt(lam / (2 -
//   lam))
Result<double> ewma_run_length(double lam, double L, double shift);

}  // namespace hw::condition
