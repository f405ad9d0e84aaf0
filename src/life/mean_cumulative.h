#pragma once
// How many failures a repaired machine has had on average by each age, without any model: the mean cumulative function
// (Nelson 1995; variance of Lawless and Nadeau 1995, which holds for machines that differ).

#include <span>
#include <vector>

#include "libs/values/result.h"

namespace hw::life {

struct WatchedMachine {
  double entry = 0;  // watched after this age ...
  double end = 0;    // ... up to this one
  std::vector<double> failures;
};

struct CumulativeStep {
  double age = 0;
  double at_risk = 0;  // machines watched then: entry < age <= end
  double failures = 0;
  double mean = 0;
  double se = 0;          // robust
  double se_poisson = 0;  // were all machines alike and failures independent: sqrt(sum failures / at_risk^2)
  double lower = 0;       // on the logarithm of the mean, by the robust error
  double upper = 0;
};

// One step for each age with a failure, ascending. conf inside (0, 1). Errors: bad_input for a machine whose end is not
// after its entry, or that has a failure outside its watch.
Result<std::vector<CumulativeStep>> mean_cumulative(std::span<const WatchedMachine> machines, double conf);

}  // namespace hw::life
