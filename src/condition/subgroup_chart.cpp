#include "src/condition/subgroup_chart.h"

#include <algorithm>

#include "src/condition/series.h"

namespace hw::condition {
namespace {

Result<void> check_subgroups(std::span<const std::vector<double>> subgroups) {
  if (subgroups.size() < 2) {
    return refuse(ErrorCode::bad_input, "at least 2 subgroups are needed, not {}", subgroups.size());
  }
  for (std::size_t n = 0; n < subgroups.size(); ++n) {
    if (subgroups[n].size() != subgroups[0].size()) {
      return refuse(ErrorCode::bad_input, "subgroup {} has {} values and the first has {}: all need as many", n + 1,
                    subgroups[n].size(), subgroups[0].size());
    }
    HW_TRY(check_series(subgroups[n], fmt::format("subgroup {}", n + 1), 1));
  }
  return {};
}

}  // namespace

Result<SubgroupChart> subgroup_chart(std::span<const std::vector<double>> subgroups) {
  HW_TRY(check_subgroups(subgroups));
  HW_TAKE(constants, chart_constants(subgroups[0].size()));
  SubgroupChart chart{.constants = constants};
  std::vector<double> ranges, deviations;
  for (const std::vector<double>& values : subgroups) {
    const auto [min, max] = std::minmax_element(values.begin(), values.end());
    ranges.push_back(*max - *min);
    deviations.push_back(standard_deviation(values));
    chart.means.push_back(mean_of(values));
  }
  chart.xbarbar = mean_of(chart.means);
  chart.rbar = mean_of(ranges);
  chart.sbar = mean_of(deviations);
  chart.sigma_R = chart.rbar / constants.d2;
  chart.sigma_s = chart.sbar / constants.c4;
  chart.ucl_x = chart.xbarbar + constants.A2 * chart.rbar;
  chart.lcl_x = chart.xbarbar - constants.A2 * chart.rbar;
  chart.ucl_r = constants.D4 * chart.rbar;
  chart.lcl_r = constants.D3 * chart.rbar;
  chart.ucl_x_s = chart.xbarbar + constants.A3 * chart.sbar;
  chart.lcl_x_s = chart.xbarbar - constants.A3 * chart.sbar;
  chart.ucl_s = constants.B4 * chart.sbar;
  chart.lcl_s = constants.B3 * chart.sbar;
  chart.out_x = points_beyond(chart.means, chart.lcl_x, chart.ucl_x);
  chart.out_r = points_beyond(ranges, chart.lcl_r, chart.ucl_r);
  chart.out_x_s = points_beyond(chart.means, chart.lcl_x_s, chart.ucl_x_s);
  chart.out_s = points_beyond(deviations, chart.lcl_s, chart.ucl_s);
  return chart;
}

}  // namespace hw::condition
