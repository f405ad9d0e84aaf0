#pragma once
// The charts of means with ranges (X-bar/R) and with standard deviations (X-bar/s), for subgroups of equal size.
//
//   sigma_R = mean R / d2    X limits = grand mean +- A2 mean R    R limits = D3, D4 times mean R
//   sigma_s = mean s / c4    X limits = grand mean +- A3 mean s    s limits = B3, B4 times mean s
//
// NIST/SEMATECH e-Handbook 6.3.2.1, ISO 7870-2. Limits include all subgroups that are given. A value on a limit is
// within it.

#include <span>
#include <vector>

#include "src/condition/chart_constants.h"

namespace hw::condition {

struct SubgroupChart {
  ChartConstants constants = {};
  double xbarbar = 0, rbar = 0, sbar = 0, sigma_R = 0, sigma_s = 0;
  double ucl_x = 0, lcl_x = 0, ucl_r = 0, lcl_r = 0;      // by the ranges
  double ucl_x_s = 0, lcl_x_s = 0, ucl_s = 0, lcl_s = 0;  // by the standard deviations
  std::vector<double> means = {};
  std::vector<std::size_t> out_x = {}, out_r = {}, out_x_s = {}, out_s = {};  // subgroups beyond a limit, from 1
};

// Refuses fewer than two subgroups, sizes outside 2 to 25, subgroups of different sizes (names the first), and values
// that are not finite.
Result<SubgroupChart> subgroup_chart(std::span<const std::vector<double>> subgroups);

}  // namespace hw::condition
