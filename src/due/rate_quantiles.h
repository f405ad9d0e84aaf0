#pragma once
// The quantiles of a mean rate that is never negative, from a mixture of beliefs about it.
//
// One belief with mean m and relative variance c^2 = variance / m^2 is taken as a power of a Student variable:
//   (rate / m)^(1/3) = 1 - c^2/9 + (c/3) T
// (Wilson and Hilferty's transform of the gamma distribution, 1931, with Student's tails), zero where that is negative:
// so use is never negative, and a machine that may stand all the time has a chance of no use at all.

#include <array>
#include <span>

namespace hw::due {

// The chances for which quantiles are kept. The seven of a due date are among them.
inline constexpr std::array<double, 15> chances = {.01,  .025, .05,  .1, .175, .25,  .375, .5,
                                                   .625, .75,  .825, .9, .95,  .975, .99};

struct WeightedRate {
  double weight = 0;    // above 0; all of a mixture sum to 1
  double mean = 0;      // above 0
  double variance = 0;  // above 0
  double degrees = 0;   // of freedom
};

// For each chance p the rate that is reached or exceeded with p: falls with p, at least 0. At least one rate.
std::array<double, chances.size()> rates_exceeded(std::span<const WeightedRate> mixture);

}  // namespace hw::due
