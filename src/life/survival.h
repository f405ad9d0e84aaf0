#pragma once
// The share of parts still good at each age, without any distribution: Kaplan and Meier 1958 for lives that failed at
// known ages or were taken out good, with delayed entry; for lives that failed between looks see turnbull.h.

#include <optional>
#include <span>
#include <vector>

#include "libs/values/result.h"
#include "src/life/observed.h"

namespace hw::life {

// How an interval for the survival S is made from Greenwood's standard error: on S itself, cut at 0 and 1 (plain), on
// log S, or on log(-log S), which never leaves [0, 1] and keeps its promise best where there are few.
enum class SurvivalScale { plain, log, log_log };

struct SurvivalStep {
  double age = 0;
  double at_risk = 0;  // entered before and not ended before; who is taken out at this age is still among them
  double failures = 0;
  double survival = 1;
  double se = 0;                // Greenwood 1926
  std::optional<double> lower;  // nothing where survival is 0
  std::optional<double> upper;
  double cumulative_hazard = 0;  // Nelson 1969, Aalen 1978: the sum of failures / at_risk
};

// One step for each age at which a part failed, ascending. Errors: bad_input where a life failed between looks.
Result<std::vector<SurvivalStep>> estimate_survival(std::span<const Observed> lives, SurvivalScale scale, double conf);

}  // namespace hw::life
