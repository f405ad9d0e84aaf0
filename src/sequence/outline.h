#pragma once
// Ways along a machine's outline: the edge of its plan, a square of side 1. A place on it is how far along it lies,
// counter-clockwise seen from above, from 0 at the front right corner to below 4.

#include <algorithm>
#include <cmath>

namespace hw::sequence {

inline constexpr double outline_length = 4;
inline constexpr double no_length = 1e-12;  // two ways that differ by less are equally long

// The way from one place to another, counter-clockwise: 0 to below 4.
inline double way_on(double from, double to) {
  const double way = std::fmod(to - from + 2 * outline_length, outline_length);
  return way > outline_length - no_length ? 0 : way;
}

// The shorter of both ways: 0 to 2.
inline double shorter_way(double from, double to) {
  const double on = way_on(from, to);
  return std::min(on, outline_length - on);
}

}  // namespace hw::sequence
