#pragma once
// Many years as figures with their spread, and two plans beside each other.

#include <cstddef>
#include <span>

#include <boost/describe/class.hpp>

#include "src/rehearsal/outcome.h"

namespace hw::rehearsal {

// Of one figure over the years.
struct Spread {
  double mean = 0;
  double se = 0;  // of the mean: standard deviation over the root of the number of years
  double q5 = 0;  // 5 % of the years are below; between two years by the straight line (Hyndman and Fan 1996, type 7)
  double q50 = 0;
  double q95 = 0;
};
BOOST_DESCRIBE_STRUCT(Spread, (), (mean, se, q5, q50, q95))

// Two values at least.
Spread spread_of(std::span<const double> values);

struct OutcomeSpread {
  Spread failures, stops, tasks_done, hands_on_hours, standing_hours, cost;
};
BOOST_DESCRIBE_STRUCT(OutcomeSpread, (), (failures, stops, tasks_done, hands_on_hours, standing_hours, cost))

// Two years at least.
OutcomeSpread spread_of(std::span<const Outcome> years);

// The changed plan less the present one, year by year: years of the same number met the same use and the same lives.
struct Difference {
  OutcomeSpread spread;
  double cheaper = 0;    // the share of the years in which the changed plan cost less ...
  double same_cost = 0;  // ... and the same
};
// As many years of both, two at least.
Difference difference_of(std::span<const Outcome> present, std::span<const Outcome> changed);

}  // namespace hw::rehearsal
