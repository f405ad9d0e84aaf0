#pragma once
// Runs and clusters on one side of the middle: the four rules of the Statistical Quality Control Handbook (Western
// Electric 1956), as NIST/SEMATECH e-Handbook 6.3.2 gives them. A point calls when it ends such a pattern.
//
//   one_beyond_3        one point beyond 3 sigma
//   two_of_3_beyond_2   two of three points in a row beyond 2 sigma, on the same side
//   four_of_5_beyond_1  four of five points in a row beyond 1 sigma, on the same side
//   eight_on_a_side     eight points in a row on the same side of the middle
//
// Each rule costs false alarms: of normal values in control the first alone calls every 370 points, all four together
// every 92 (Champ and Woodall 1987: 91.75, from memory; the test simulates it). That is why only the first is on by
// itself. Readings that follow each other closely in time are alike, and then the runs call much more often still.

#include <span>
#include <vector>

namespace hw::condition {

enum class ZoneRule { one_beyond_3, two_of_3_beyond_2, four_of_5_beyond_1, eight_on_a_side };

struct ZoneCall {
  ZoneRule rule = ZoneRule::one_beyond_3;
  std::vector<std::size_t> at = {};  // points, from 1
};

// One entry for each rule, in order. `sigma` is above 0, or there is no call.
std::vector<ZoneCall> zone_calls(std::span<const double> x, double middle, double sigma);

}  // namespace hw::condition
