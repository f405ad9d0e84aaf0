#pragma once
// The tabular cumulative sum: adds up what goes beyond a slack k, and calls when the sum exceeds h.
//
//   S_hi = max(0, S_hi + x - target - k)    S_lo = max(0, S_lo + target - k - x)    signal when S > h, strictly
//
// NIST/SEMATECH e-Handbook 6.3.2.3; k and h in the unit of x. After a signal the sums go on; nothing is set back.

#include <optional>
#include <span>
#include <vector>

#include "libs/values/result.h"

namespace hw::condition {

struct CusumDesign {
  double target = 0;
  double k = 0;  // slack, at least 0
  double h = 0;  // decision limit, above 0
};

struct CusumChart {
  std::vector<double> high, low;                   // S_hi and S_lo after each point
  std::vector<std::size_t> signals = {};           // points, from 1
  std::optional<std::size_t> first_signal = {};    // nothing where there is none
  std::optional<std::size_t> shift_began_at = {};  // the point after which the sum that called was last 0
};

// Refuses a design outside its ranges, no values, and values that are not finite.
Result<CusumChart> cusum_chart(std::span<const double> x, const CusumDesign& design);

}  // namespace hw::condition
