#pragma once
// Replacing a part at fixed times whatever its age, and at each failure in between (Barlow and Proschan 1965):
// C(T) = (planned + failed M(T)) / T with the renewal function M.

#include <optional>

#include "src/life/age_replacement.h"

namespace hw::life {

struct BlockAdvice {
  std::optional<double> interval;  // nothing: run to failure
  double cost_rate = 0;            // of what is advised
  double run_to_failure = 0;
  double saving = 0;    // share of run_to_failure
  double failures = 0;  // expected in one interval
};

double block_cost_rate(const Weibull& life, const ReplacementCosts& costs, double interval);

// The first T at which T m(T) - M(T) = planned / failed, if it costs less than running to failure. As
// T m - M tends to (1 - cv^2) / 2, there is none for shapes up to 1, nor for planned replacements nearly as dear as
// failures. Shapes up to 50 (renewals.h).
BlockAdvice advise_block(const Weibull& life, const ReplacementCosts& costs);

}  // namespace hw::life
