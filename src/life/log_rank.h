#pragma once
// Whether several groups of parts last equally long, without any distribution: the log-rank test (Mantel 1966, Peto and
// Peto 1972; for k groups with delayed entry as in Klein and Moeschberger 2003, section 7.3; from memory).
//
// At each age t with d failures among n parts at risk, n_j of them in group j, equal groups would share the failures as
// they share the risk:
//
//   E_j = sum d n_j / n      V_jl = sum d (n - d) / (n - 1) n_j / n (1{j = l} - n_l / n)
//   statistic = (O - E)' V^- (O - E), chi-squared on rank(V) degrees, k - 1 unless groups never meet
//
// At risk after its entry and up to its own age, as in survival.h. Where a group can expect fewer than 5 failures, the
// chi-squared distribution is not to be believed (Cochran's rule of 1954 for counts, taken over to this one: common
// practice). Then the lives are dealt anew to the groups, 4,999 times with a fixed seed, and p is the share of deals,
// this one among them, in which sum (O_j - E_j)^2 / E_j is as great (Phipson and Smyth 2010). That asks of equal groups
// that they were also watched alike: entries and ages at which parts were taken out good go with the lives.

#include <span>
#include <string_view>
#include <vector>

#include "libs/values/result.h"
#include "src/life/observed.h"

namespace hw::life {

enum class PValueBy { chi_squared, permutation };
// "chi-squared", "permutation".
std::string_view word_of(PValueBy by);

struct GroupFailures {
  double observed = 0;
  double expected = 0;  // were all groups equal; 0: it was never at risk when one failed
};

struct LogRank {
  std::vector<GroupFailures> groups;  // in the order in which they were given
  double statistic = 0;               // at least 0, chi-squared
  int degrees = 0;                    // from 1
  double p = 1;                       // above 0 or tiny, at most 1
  PValueBy by = PValueBy::chi_squared;
};

inline constexpr double expected_min = 5;  // in every group, for chi-squared
inline constexpr int deals = 4999;
inline constexpr double dealt_most = 20'000;  // lives; of more the chi-squared distribution is taken in any case

// Lives without fault (fault_of). Errors, bad_input: a life that failed between two looks has no known age; there is no
// failure; fewer than two groups were ever at risk together when a part failed.
Result<LogRank> compare_survival(std::span<const std::vector<Observed>> groups);

}  // namespace hw::life
