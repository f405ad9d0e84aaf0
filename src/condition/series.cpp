#include "src/condition/series.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "libs/values/assert.h"

namespace hw::condition {

Result<void> check_series(std::span<const double> values, std::string_view name, std::size_t count_min) {
  if (values.size() < count_min) {
    return refuse(ErrorCode::bad_input, "{}: at least {} values are needed, not {}", name, count_min, values.size());
  }
  if (values.size() > series_length_max) {
    return refuse(ErrorCode::too_large, "{}: at most {} values, not {}", name, series_length_max, values.size());
  }
  for (std::size_t n = 0; n < values.size(); ++n) {
    const double size = std::abs(values[n]);
    if (size == 0 || (size >= series_size_min && size <= series_value_max)) continue;
    return refuse(ErrorCode::bad_input, "{}[{}] is no finite number, or beyond 1e15 or 1e-30 in size", name, n);
  }
  return {};
}

Result<void> check_pairs(std::span<const double> x, std::span<const double> y, std::size_t count_min) {
  HW_TRY(check_series(x, "x", count_min));
  HW_TRY(check_series(y, "y", count_min));
  if (x.size() != y.size()) {
    return refuse(ErrorCode::bad_input, "x has {} values and y {}: each point needs both", x.size(), y.size());
  }
  return {};
}

double mean_of(std::span<const double> values) {
  HW_ASSERT(!values.empty(), "a mean of something");
  return std::accumulate(values.begin(), values.end(), 0.0) / static_cast<double>(values.size());
}

double standard_deviation(std::span<const double> values) {
  HW_ASSERT(values.size() >= 2, "at least two values scatter");
  const double mean = mean_of(values);
  double sum = 0;
  for (const double value : values) sum += (value - mean) * (value - mean);
  return std::sqrt(sum / static_cast<double>(values.size() - 1));
}

double median_of(std::vector<double> values) {
  HW_ASSERT(!values.empty(), "a median of something");
  const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
  std::nth_element(values.begin(), middle, values.end());
  if (values.size() % 2 == 1) return *middle;
  return (*std::max_element(values.begin(), middle) + *middle) / 2;
}

std::vector<std::size_t> points_beyond(std::span<const double> values, double lower, double upper) {
  std::vector<std::size_t> points;
  for (std::size_t n = 0; n < values.size(); ++n) {
    if (values[n] > upper || values[n] < lower) points.push_back(n + 1);
  }
  return points;
}

}  // namespace hw::condition
