#pragma once
// How many of a part to have, so that one that is used up is replaced one for one from a supplier with a lead time:
// levels for a wanted chance. Two measures of service, which are not the same:
//
//   no stock-out in the lead time   P(D <= s), D the demand in the lead time: nothing is owed to anybody
//   fill rate                       P(D <= S - 1): the share of demands that are met at once (demands see time
//   averages)
//
// The level for a fill rate is one above that for no stock-out.

#include <span>
#include <vector>

#include "libs/values/result.h"

namespace hw::kits {

// D is Poisson with that mean, at least 0 (Palm 1938: so it is for any scatter of the lead time); wanted in (0, 1).
struct BaseStock {
  double mean = 0;
  double s_no_stockout = 0;       // the smallest s with P(D <= s) >= wanted ...
  double achieved = 0;            // ... and that P(D <= s)
  double s_fill_rate = 0;         // the smallest S with P(D <= S - 1) >= wanted ...
  double fill_rate_achieved = 0;  // ... and that P(D <= S - 1)
  double ebo_at_s = 0;            // E(D - s)+ at s_no_stockout: units owed on average
  double mean_on_hand_at_s = 0;   // E(s - D)+
};
BaseStock base_stock(double mean, double wanted);

// Parts that fail by chance: mean demand = parts * use a day * lead days / MTBF. All at least 0, the MTBF above it.
struct FailingParts {
  double n_parts = 0, mtbf_h = 1, use_h_per_day = 0, lead_days = 0;
};
double lead_time_demand(const FailingParts& parts);

// The failure rate itself is known from few failures only: rate ~ gamma(shape, hours), so that
//   D ~ negative binomial,  P(D <= s) = I_x(shape, s + 1),  x = T / (T + L)
// with I the regularized incomplete beta function; r failures seen in T part-hours: shape = r + 1/2 (Jeffreys).
// Measure: no stock-out over the L part-hours to be covered. shape and T above 0, L at least 0.
struct UncertainStock {
  double mean = 0;  // shape L / T
  double s = 0;
  double achieved = 0;
  double poisson_s = 0;  // the level that takes the mean rate as known
};
UncertainStock stock_for_uncertain_rate(double shape, double seen_hours, double hours_to_cover, double wanted);

// Parts of known age with Weibull lives, until the delivery comes after x: each fails with
//   q = 1 - R(age + x) / R(age),  R(t) = exp(-(t / scale)^shape)
// and their number is the sum of independent chances (Poisson binomial). That a new one fails within x too is left out.
// Measure: no stock-out until then. shape and scale above 0, ages and x at least 0.
struct AgedStock {
  std::vector<double> fail_prob;
  double expected = 0;
  std::vector<double> pmf;  // of 0 .. all of them
  double s = 0;
  double achieved = 0;
};
struct PartLife {
  double shape = 1, scale = 1;
};
AgedStock stock_for_known_ages(const PartLife& life, std::span<const double> ages, double until, double wanted);

}  // namespace hw::kits
