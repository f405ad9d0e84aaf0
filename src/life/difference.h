#pragma once
// Whether groups of parts last equally long, in one word: from the log-rank test, which sees where one group fails more
// often at every age, and the Weibull test, which also sees where their wear differs while they fail equally often.
//
// Equal groups are called different with a chance of 5 % at most: of two tests each may speak at 2.5 % (Bonferroni).

#include <optional>

#include "src/life/log_rank.h"
#include "src/life/weibull_difference.h"

namespace hw::life {

inline constexpr double false_alarms = 0.05;  // the chance of one where nothing differs

// `unknown`: neither test can be made.
enum class LikenessVerdict { unknown, no_difference_seen, differ };
// "unknown", "no difference seen", "differ".
std::string_view word_of(LikenessVerdict verdict);

struct Difference {
  Result<LogRank> log_rank;
  Result<WeibullDifference> weibull;
  double p_needed = false_alarms;  // of a test that is to speak
  LikenessVerdict verdict = LikenessVerdict::unknown;
};

// Lives without fault (fault_of).
Difference judge_difference(std::span<const std::vector<Observed>> groups);

}  // namespace hw::life
