#include "src/condition/cusum_chart.h"

#include <algorithm>
#include <cmath>

#include "src/condition/series.h"

namespace hw::condition {
namespace {

Result<void> check_cusum(const CusumDesign& design) {
  HW_TRY(check_series({&design.target, 1}, "target", 1));
  if (!(design.k >= 0 && design.k <= series_value_max)) {
    return refuse(ErrorCode::bad_input, "k: a slack from 0 on, not {}", design.k);
  }
  if (!(design.h > 0 && design.h <= series_value_max)) {
    return refuse(ErrorCode::bad_input, "h: a decision limit above 0, not {}", design.h);
  }
  return {};
}

}  // namespace

Result<CusumChart> cusum_chart(std::span<const double> x, const CusumDesign& design) {
  HW_TRY(check_cusum(design));
  HW_TRY(check_series(x, "x", 1));
  CusumChart chart{};
  double high = 0, low = 0;
  std::size_t high_from = 1, low_from = 1;  // the first point since the sum was 0
  for (std::size_t point = 1; point <= x.size(); ++point) {
    high = std::max(0.0, high + x[point - 1] - design.target - design.k);
    low = std::max(0.0, low + design.target - design.k - x[point - 1]);
    if (high <= 0) high_from = point + 1;
    if (low <= 0) low_from = point + 1;
    chart.high.push_back(high);
    chart.low.push_back(low);
    if (high <= design.h && low <= design.h) continue;
    chart.signals.push_back(point);
    if (!chart.shift_began_at) chart.shift_began_at = high > design.h ? high_from : low_from;
  }
  if (!chart.signals.empty()) chart.first_signal = chart.signals.front();
  return chart;
}

}  // namespace hw::condition
