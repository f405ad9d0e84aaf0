#include "src/condition/sen_slope.h"

#include <algorithm>
#include <cmath>

#include "src/condition/mann_kendall.h"
#include "src/condition/series.h"

namespace hw::condition {
namespace {

// Between ordered values, by rank from 1 on.
double at_rank(std::span<const double> ordered, double rank) {
  const double last = static_cast<double>(ordered.size());
  const double within = std::clamp(rank, 1.0, last);
  const auto below = static_cast<std::size_t>(within);
  const double above = ordered[std::min(below, ordered.size() - 1)];
  return ordered[below - 1] + (within - std::floor(within)) * (above - ordered[below - 1]);
}

std::vector<double> pair_slopes(std::span<const double> x, std::span<const double> y) {
  std::vector<double> slopes;
  for (std::size_t a = 0; a < x.size(); ++a) {
    for (std::size_t b = a + 1; b < x.size(); ++b) {
      if (x[a] != x[b]) slopes.push_back((y[b] - y[a]) / (x[b] - x[a]));
    }
  }
  std::sort(slopes.begin(), slopes.end());
  return slopes;
}

}  // namespace

Result<SenSlope> sen_slope(std::span<const double> x, std::span<const double> y) {
  HW_TAKE(kendall, mann_kendall(x, y));
  const std::vector<double> slopes = pair_slopes(x, y);
  const auto count = static_cast<double>(slopes.size());
  SenSlope sen{.slope = median_of(slopes)};
  sen.intercept_from_medians = median_of({y.begin(), y.end()}) - sen.slope * median_of({x.begin(), x.end()});
  std::vector<double> rests;
  for (std::size_t n = 0; n < x.size(); ++n) rests.push_back(y[n] - sen.slope * x[n]);
  sen.intercept_from_residuals = median_of(std::move(rests));
  constexpr double z_of_95 = 1.959963984540054;
  const double reach = z_of_95 * std::sqrt(kendall.variance);
  sen.slope_ci95 = {at_rank(slopes, (count - reach) / 2), at_rank(slopes, (count + reach) / 2 + 1)};
  return sen;
}

}  // namespace hw::condition
