#pragma once
// What ending a cycle early or late costs, averaged over five equally likely best lengths L.
//
// Ended after g days, with r = g / L and wear exponent b: own_cost * (1 + (r^b - b r) / (b - 1)), which is 0 with slope
// 0 at r = 1 and own_cost at r = 0 (the shape of age replacement: Barlow and Hunter 1960); and beyond the tolerance
// late_cost_per_day * max(0, g - L - late_tolerance_days).
//
// Still open at the horizon after g days: the same with max(g, L) for g, and carry_over_cost where g >= L.

#include "src/plan/instance.h"

namespace hw::plan {

double cycle_cost(const Task& task, double gap_days, const Fifths& best_lengths);
double open_cycle_cost(const Task& task, double gap_days, const Fifths& best_lengths);
// The best lengths of the cycle that runs on day 0, counted from its beginning.
Fifths first_lengths(const Task& task);

}  // namespace hw::plan
