#pragma once
// Intervals of work that is no replacement of a part by its age: overhauls, inspections, tests of protective devices.

#include <optional>

#include "src/life/weibull.h"

namespace hw::life {

// A machine is repaired at each failure, which leaves it as it was, and overhauled every T, which makes it new (Barlow
// and Hunter 1960, policy II). Failures up to t: (t / scale)^shape.
struct OverhaulAdvice {
  std::optional<double> interval;  // nothing for shapes up to 1: no overhaul
  double cost_rate = 0;            // (overhaul + repair (T / scale)^shape) / T
  double repairs = 0;              // expected in one interval
};
struct OverhaulCosts {
  double overhaul = 0;  // both above 0
  double repair = 0;
};
OverhaulAdvice advise_overhaul(const Weibull& intensity, const OverhaulCosts& costs);

// Defects arise evenly, can be seen for a while, and then become breakdowns; an inspection finds all that are there
// (delay-time model, Christer and Waller 1984). All above 0, in one unit of time, e.g. hours.
struct DelayTime {
  double defect_rate = 0;      // defects per hour of running
  double delay_mean = 0;       // from when a defect could be seen to the breakdown, exponential
  double breakdown_down = 0;   // down for a breakdown
  double inspection_down = 0;  // down for an inspection
};
// The share of defects that become breakdowns with inspections every `interval`: 1 - (mean / T) (1 - exp(-T / mean)).
double breakdown_share(const DelayTime& model, double interval);
// Hours down per hour: (rate T share breakdown_down + inspection_down) / (T + inspection_down).
double down_share(const DelayTime& model, double interval);
struct InspectionAdvice {
  std::optional<double> interval;  // nothing: no inspection
  double down = 0;                 // share of time, as advised
  double down_without = 0;         // with no inspection: rate breakdown_down
  double breakdowns = 1;           // share of the defects
};
InspectionAdvice advise_inspection(const DelayTime& model);

// A protective device whose failure nobody notices until it is tested (or needed): the mean share of time in which it
// would not protect, with tests every `interval` that make it as new: 1 - (1/T) integral of R from 0 to T.
double unprotected_share(const Weibull& life, double interval);
// The interval for which that share is `share`, inside (0, 1).
double test_interval(const Weibull& life, double share);

}  // namespace hw::life
