#include "src/condition/count_chart.h"

#include <algorithm>
#include <cmath>

#include "src/condition/series.h"

namespace hw::condition {

Result<CountChart> count_chart(std::span<const double> counts) {
  HW_TRY(check_series(counts, "c", 2));
  for (std::size_t n = 0; n < counts.size(); ++n) {
    if (counts[n] >= 0 && counts[n] == std::floor(counts[n])) continue;
    return refuse(ErrorCode::bad_input, "c[{}]: a count is a whole number from 0 on, not {}", n, counts[n]);
  }
  CountChart chart{.cbar = mean_of(counts)};
  const double reach = 3 * std::sqrt(chart.cbar);
  chart.ucl = chart.cbar + reach;
  chart.lcl = std::max(0.0, chart.cbar - reach);
  chart.out = points_beyond(counts, chart.lcl, chart.ucl);
  return chart;
}

}  // namespace hw::condition
