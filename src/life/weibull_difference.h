#pragma once
// Whether several groups of parts have the same Weibull distribution: the likelihood-ratio test of one shape and scale
// for all against one of each group's own (Wilks 1938; for lives Lawless 2003, section 5.4; from memory).
//
//   statistic = 2 (sum over groups of their own maximum of the log-likelihood - the common maximum)
//
// on 2 (k - 1) degrees. In small samples it is too great: a maximum of r failures lies above the truth by about
// 2 + 1.75 / r instead of 2 (our own simulation, complete lives of any shape; 0.5 in the place of 1.75 where half are
// taken out good, so that the test then speaks too seldom). So it is divided, before it is held against chi-squared, by
//
//   correction = 1 + 1.75 (sum 1 / r_j - 1 / r) / degrees        r_j failures in group j, r in all (Bartlett 1937)
//
// Groups with fewer than failures_min failures are left out: below it even that does not keep the 5 %. How often the
// test speaks where nothing differs stands in docs/methods/life.md, by tests/life/difference_size_test.cpp.

#include <span>
#include <vector>

#include "libs/values/result.h"
#include "src/life/observed.h"

namespace hw::life {

struct WeibullDifference {
  std::vector<bool> takes_part;  // by group, in the order in which they were given
  double statistic = 0;          // at least 0, not corrected
  double correction = 1;         // by which it is divided for p
  int degrees = 0;               // from 2
  double p = 1;                  // from 0 to 1
};

inline constexpr double failures_min = 5;

// Lives without fault (fault_of), seen in any way. Errors, bad_input: fewer than two groups have failures_min failures
// and a fit of their own; what fit_weibull refuses of all of them together.
Result<WeibullDifference> compare_weibull(std::span<const std::vector<Observed>> groups);

}  // namespace hw::life
