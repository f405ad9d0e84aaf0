#pragma once
// The likeliest distribution of lives of which it is only known between which looks they failed, without assuming any
// form (Peto 1973, Turnbull 1976): probabilities of the innermost intervals, inside which nothing tells where they lie.
//
// A step of expectation-maximisation and one of the iterative convex minorant with a line search (Wellner and Zhan
// 1997, from memory) follow each other until no interval could raise the log-likelihood per life at a rate above 1e-11,
// or above what the rounding of the smallest probability hides.

#include <span>
#include <vector>

#include "libs/values/result.h"
#include "src/life/observed.h"

namespace hw::life {

struct Mass {
  double after = 0;  // the life ends after this age (or exactly at `by`, where both are equal)
  double by = 0;     // infinite: beyond all looks
  double probability = 0;
};
struct SurvivalAt {
  double age = 0;
  double survival = 1;
};

struct Turnbull {
  std::vector<Mass> masses;          // ascending, those of probability 0 as well
  std::vector<SurvivalAt> survival;  // at every age named in the lives, ascending
  double loglik = 0;
  int rounds = 0;
};

// Errors: bad_input for lives with an entry (the estimate need not exist then), unsupported where it has not settled
// after 100,000 rounds.
Result<Turnbull> estimate_turnbull(std::span<const Observed> lives);

}  // namespace hw::life
