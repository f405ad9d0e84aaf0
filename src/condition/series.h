#pragma once
// A series of values before anything is computed from it.

#include <cstddef>
#include <span>
#include <string_view>
#include <vector>

#include "libs/values/result.h"

namespace hw::condition {

inline constexpr std::size_t series_length_max = 100'000;
// What a reading can be in any unit; sums of squares and quotients of such values are finite.
inline constexpr double series_value_max = 1e15;
inline constexpr double series_size_min = 1e-30;  // but for 0

// Refuses a series that is shorter than `count_min` or longer than series_length_max, and a value that is not finite,
// beyond 1e15 either way, or nearer to 0 than 1e-30 without being 0: "x[3] is no finite number" (counted from 0).
Result<void> check_series(std::span<const double> values, std::string_view name, std::size_t count_min);

// The same for two series that belong together, point by point.
Result<void> check_pairs(std::span<const double> x, std::span<const double> y, std::size_t count_min);

double mean_of(std::span<const double> values);  // of at least one value
// With n - 1; of at least two values.
double standard_deviation(std::span<const double> values);
double median_of(std::vector<double> values);  // of at least one value

// The points, counted from 1, whose value is above `upper` or below `lower`. A value on a limit is within it.
std::vector<std::size_t> points_beyond(std::span<const double> values, double lower, double upper);

}  // namespace hw::condition
