#pragma once
// The chart of individual values and moving ranges, for readings that come one at a time.
//
//   MR_i = |x_i - x_{i-1}|    sigma = mean MR / d2    limits = mean +- 3 sigma    MR limit = D4 mean MR
//
// NIST/SEMATECH e-Handbook 6.3.2.2. Two conventions of d2 for n = 2: exactly 2 / sqrt(pi), or 1.128 as tables print it;
// the limits differ in the third decimal. A value on a limit is within it.

#include <span>
#include <vector>

#include "libs/values/result.h"

namespace hw::condition {

enum class RangeConstant { exact_d2, d2_1_128 };

struct IndividualsChart {
  double mean = 0, mr_bar = 0, sigma = 0, ucl = 0, lcl = 0, mr_ucl = 0;  // in the unit of x
  std::vector<std::size_t> out = {};                                     // points beyond a limit, from 1
  std::vector<std::size_t> mr_out = {};                                  // points whose step from the one before is
};

// Refuses fewer than two values and values that are not finite.
Result<IndividualsChart> individuals_chart(std::span<const double> x, RangeConstant constant);

}  // namespace hw::condition
