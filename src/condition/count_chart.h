#pragma once
// The chart of counts (c chart): how often something happened in periods of equal length, such as alarms a week.
//
//   limits = mean count +- 3 sqrt(mean count), the lower one not below 0
//
// NIST/SEMATECH e-Handbook 6.3.3.1. It holds for counts that are Poisson; where they scatter more (alarms that come in
// showers), it calls too often. A count on a limit is within it.

#include <span>
#include <vector>

#include "libs/values/result.h"

namespace hw::condition {

struct CountChart {
  double cbar = 0, ucl = 0, lcl = 0;
  std::vector<std::size_t> out = {};  // periods beyond a limit, from 1
};

// Refuses fewer than two counts, and counts that are negative or no whole numbers.
Result<CountChart> count_chart(std::span<const double> counts);

}  // namespace hw::condition
