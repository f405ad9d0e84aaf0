#pragma once
// Replacing a part at an age, or when it fails before (Barlow and Proschan 1965, chapter 4). The cost per unit of use
// is
//
//   C(T) = (planned R(T) + failed F(T)) / integral of R from 0 to T
//
// `failed` is the whole cost of a replacement after a failure, not what it costs more than a planned one.

#include <optional>

#include "src/life/weibull.h"

namespace hw::life {

struct ReplacementCosts {
  double planned = 0;  // both at least 0, one of them above; any one currency
  double failed = 0;
};

// Per unit of use, replaced at that age (above 0, may be infinite: run to failure).
double age_cost_rate(const Weibull& life, const ReplacementCosts& costs, double age);
double run_to_failure_rate(const Weibull& life, const ReplacementCosts& costs);

// Where C(T) is flat: hazard(T) integral R - F(T) = planned / (failed - planned). Nothing where it falls for ever:
// shape not above 1, or a failure that costs no more than a planned replacement.
std::optional<double> stationary_age(const Weibull& life, const ReplacementCosts& costs);

struct AgeAdvice {
  std::optional<double> interval;  // nothing: run to failure
  double cost_rate = 0;            // of what is advised
  double run_to_failure = 0;
  double saving = 0;      // share of run_to_failure; below 1e-9 nothing is advised
  double mean_cycle = 0;  // mean time between replacements of both kinds
};
AgeAdvice advise_age(const Weibull& life, const ReplacementCosts& costs);

}  // namespace hw::life
