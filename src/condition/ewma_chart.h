#pragma once
// The chart of exponentially weighted moving averages: finds small lasting shifts sooner than single values do.
//
//   z_i = lam x_i + (1 - lam) z_{i-1}, z_0 = target
//   asymptotic limits      target +- L sigma sqrt(lam / (2 - lam))
//   time-varying limits    target +- L sigma sqrt(lam / (2 - lam) (1 - (1 - lam)^(2i)))
//
// NIST/SEMATECH e-Handbook 6.3.2.4 uses the asymptotic limits (and truncates where it prints the lower one); the
// time-varying ones are exact for the first points. Both are given by name. A value on a limit is within it.

#include <span>
#include <vector>

#include "libs/values/result.h"

namespace hw::condition {

struct EwmaDesign {
  double lam = 0.2;   // above 0, up to 1
  double target = 0;  // in the unit of x
  double sigma = 1;   // standard deviation of single values, above 0
  double L = 3;       // limits in standard deviations of z, above 0, up to 10
};

struct EwmaPoint {
  double z = 0, lcl_i = 0, ucl_i = 0;  // the limits that vary with time
};

struct EwmaChart {
  std::vector<EwmaPoint> series;
  double ucl = 0, lcl = 0;                                                 // asymptotic
  std::vector<std::size_t> signals_asymptotic, signals_time_varying = {};  // points, from 1
};

// Refuses a design outside its ranges, no values, and values that are not finite.
Result<EwmaChart> ewma_chart(std::span<const double> x, const EwmaDesign& design);
Result<void> check_design(const EwmaDesign& design);

}  // namespace hw::condition
