#pragma once
// The slope of Theil and Sen: the median of the slopes between all pairs of readings. One wild reading does not move
// it.
//
// Two intercepts are in use and differ (9 and 8 on the data of US EPA QA/G-9S p. 109), so both are named:
//   from_medians    median(y) - slope median(x)
//   from_residuals  median(y - slope x)
// The 95 % interval of the slope is Gilbert's (1987): the ordered slopes at ranks (N -+ C) / 2 with C = 1.96 sd(S) of
// the Mann-Kendall statistic, interpolated between ranks, not beyond the outermost slopes.

#include <array>
#include <span>

#include "libs/values/result.h"

namespace hw::condition {

struct SenSlope {
  double slope = 0, intercept_from_medians = 0, intercept_from_residuals = 0;
  std::array<double, 2> slope_ci95{};
};

// The slopes between all pairs are looked at, so at most this many points.
inline constexpr std::size_t paired_points_max = 3000;

// Refuses fewer than two points, more than 3000, values that are not finite, and x that are all alike.
Result<SenSlope> sen_slope(std::span<const double> x, std::span<const double> y);

}  // namespace hw::condition
