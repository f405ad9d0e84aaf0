#pragma once
// Accuracy and repeatability of positioning of a numerically controlled axis by ISO 230-2, from runs to the same
// targets in both directions.
//
//   x_ij = actual - target    s_i with n - 1    B_i = mean up - mean down
//   R_i = max(2 s_up + 2 s_down + |B_i|, 4 s_up, 4 s_down)    R = max R_i    R_up = max 4 s_up, R_down alike
//   E, E_up, E_down   range of the mean deviations (both directions together, one alone)
//   M                 range of the means of both directions
//   A, A_up, A_down   max(mean + 2 s) - min(mean - 2 s)
//
// The expanded uncertainty of the measurement is not added. All results in the unit of the targets.

#include <span>
#include <vector>

#include "libs/values/result.h"
#include "src/condition/standard_note.h"

namespace hw::condition {

inline constexpr StandardNote positioning_standard{
    "ISO 230-2:2014",
    "a public acceptance report of a measured axis (2021) agrees in means, s, R_i, B, M and A to its rounding; where "
    "it prints "
    "R as the larger unidirectional value and E from one direction, it is not the standard's R and E",
    "the formulas",
    "5 runs each way, at least 5 targets on each metre, the expanded uncertainty that a report has to state, and the "
    "formulas of A, E, M and R (clause 8)"};

struct PositioningRuns {
  std::vector<double> target;             // rising strictly
  std::vector<std::vector<double>> up;    // for each target the positions reached from below
  std::vector<std::vector<double>> down;  // and from above
};

struct Positioning {
  std::vector<double> x_up = {}, x_down = {}, x_mean = {}, B_i = {}, s_up = {}, s_down = {}, R_i = {};
  double B = 0, B_mean = 0, R_up = 0, R_down = 0, R = 0;  // B: the largest |B_i|; B_mean with its sign
  double E_up = 0, E_down = 0, E = 0, M = 0, A_up = 0, A_down = 0, A = 0;
};

// Refuses fewer than two targets, targets that do not rise, fewer than two runs, targets with different numbers of
// runs, and a position that is farther from its target than half the way to the next: those are deviations or another
// unit.
Result<Positioning> evaluate_positioning(const PositioningRuns& runs);

}  // namespace hw::condition
