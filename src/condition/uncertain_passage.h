#pragma once
// When a drifting value reaches a limit, if its drift and scatter are known no better than a few readings tell.
//
// The first passage of first_passage.h is averaged over what is believed of both after the readings, as Bayes' rule has
// it with flat priors for nu and log sigma (textbook result; from memory):
//
//   sigma^2   sigma_unbiased^2 (m - 1) / chi-square with m - 1 degrees
//   nu        normal about the fitted drift with standard deviation sigma / sqrt(span)
//
// Few readings make a wide answer, and one that leaves a chance of never.

#include <vector>

#include "src/condition/drift_fit.h"

namespace hw::condition {

// Where the limit lies, seen from the readings.
enum class LimitSide { above, below };

class UncertainPassage {
 public:
  // `d` above 0 is the distance from the last reading to the limit, in the readings' unit.
  UncertainPassage(const DriftFit& fit, double d, LimitSide side);
  // P(reached within t after the last reading), t at least 0 in the unit of the readings' times.
  double below(double t) const;

 private:
  std::vector<Drift> drifts_;  // equally likely
  double d_;
};

}  // namespace hw::condition
