#pragma once
// Drift and scatter of a Wiener process from readings at unequal distances.
//
//   nu = (x_last - x_first) / (t_last - t_first)    sigma^2 = mean of (dx - nu dt)^2 / dt over the steps between
//   readings
//
// The maximum-likelihood sigma divides by the number of steps m, the unbiased one by m - 1, as nu is fitted too. se_nu
// is sigma_unbiased / sqrt(t_last - t_first). Noise of the instrument counts as scatter: dates become wider, not surer.

#include <span>

#include "src/condition/first_passage.h"

namespace hw::condition {

struct DriftFit {
  double nu = 0, sigma_mle = 0, sigma_unbiased = 0, se_nu = 0;
  double span = 0;    // t_last - t_first
  std::size_t m = 0;  // steps
};

// Refuses fewer than three readings, times that do not rise strictly, values that are not finite.
Result<DriftFit> fit_drift(std::span<const double> t, std::span<const double> x);

}  // namespace hw::condition
