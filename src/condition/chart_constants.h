#pragma once
// The constants of control charts, for subgroups of n values from a normal distribution.
//
//   d2 = E(W), d3 = sd(W)    W: the range of n standard normal values
//   c4 = sqrt(2 / (n - 1)) Gamma(n / 2) / Gamma((n - 1) / 2)      E(s) / sigma
//   A2 = 3 / (d2 sqrt n)     D3, D4 = 1 -+ 3 d3 / d2              D3 and B3 not below 0
//   A3 = 3 / (c4 sqrt n)     B3, B4 = 1 -+ 3 sqrt(1 - c4^2) / c4  E2 = 3 / d2
//
// Definitions: ASTM E2587, ISO 7870-2, NIST/SEMATECH e-Handbook 6.3.2.1. Printed tables have three decimals and differ
// in the last one for D4 (n = 3: 2.574 or 2.575, n = 5: 2.114 or 2.115); these are computed, to about 1e-10.

#include <cstddef>

#include "libs/values/result.h"

namespace hw::condition {

inline constexpr std::size_t subgroup_size_min = 2;
inline constexpr std::size_t subgroup_size_max = 25;

struct ChartConstants {
  std::size_t n = 0;
  double d2 = 0, d3 = 0, c4 = 0, A2 = 0, A3 = 0, D3 = 0, D4 = 0, B3 = 0, B4 = 0, E2 = 0;
};

// Refuses sizes outside 2 to 25: for larger subgroups a range says little, and charts of means and s use large-sample
// limits.
Result<ChartConstants> chart_constants(std::size_t size);

}  // namespace hw::condition
