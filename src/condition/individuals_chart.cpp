#include "src/condition/individuals_chart.h"

#include <cmath>
#include <limits>
#include <numbers>

#include "src/condition/series.h"

namespace hw::condition {
namespace {

const double d2_of_two = 2 * std::numbers::inv_sqrtpi;
const double d4_of_two = 1 + 3 * std::sqrt(std::numbers::pi / 2 - 1);  // 1 + 3 d3 / d2, d3^2 = 2 - 4 / pi

}  // namespace

Result<IndividualsChart> individuals_chart(std::span<const double> x, RangeConstant constant) {
  HW_TRY(check_series(x, "x", 2));
  std::vector<double> ranges;
  for (std::size_t n = 1; n < x.size(); ++n) ranges.push_back(std::abs(x[n] - x[n - 1]));
  IndividualsChart chart{.mean = mean_of(x), .mr_bar = mean_of(ranges)};
  chart.sigma = chart.mr_bar / (constant == RangeConstant::exact_d2 ? d2_of_two : 1.128);
  chart.ucl = chart.mean + 3 * chart.sigma;
  chart.lcl = chart.mean - 3 * chart.sigma;
  chart.mr_ucl = d4_of_two * chart.mr_bar;
  chart.out = points_beyond(x, chart.lcl, chart.ucl);
  chart.mr_out = points_beyond(ranges, 0, chart.mr_ucl);
  for (std::size_t& point : chart.mr_out) ++point;  // a range belongs to the later of its two values
  return chart;
}

}  // namespace hw::condition
