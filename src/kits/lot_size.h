#pragma once
// How much to order at once, and at which stock: the economic order quantity and the exact (r, Q) policy for Poisson
// demand.

#include "libs/values/result.h"

namespace hw::kits {

struct OrderQuantity {
  double quantity = 0;
  double cost_rate = 0;  // ordering and holding per unit of time
};

// Q = sqrt(2 K lambda / h), cost sqrt(2 K lambda h) (Harris 1913): certain, even demand; nothing is ever missing.
// All three above 0; rate and holding per the same unit of time.
OrderQuantity economic_quantity(double order_cost, double rate, double holding);

struct ReorderTerms {
  double holding = 0;     // h: of a unit on hand, per unit of time
  double missing = 0;     // p: of a unit owed, per unit of time
  double order_cost = 0;  // K
  double rate = 0;        // lambda: mean demand per unit of time
  double lead_time = 0;   // L, in the unit of time; K and L at least 0, the others above
};

struct ReorderPolicy {
  double reorder_at = 0;  // r: ordered as soon as stock and orders, less what is owed, fall to it; may be below 0
  double lot = 0;         // Q
  double cost_rate = 0;   // [K lambda + sum of g(y) for y = r+1 .. r+Q] / Q
  double lead_time_mean = 0;
  double fill_rate = 0;  // the share of demands met at once: the mean of P(D <= y - 1) over y = r+1 .. r+Q
};

// Cost least over r and Q, exactly: g(y) = h E(y - D)+ + p E(D - y)+ has one minimum, so the best Q positions are the Q
// cheapest ones, taken from there outward as long as the average falls (Federgruen and Zheng 1992; from memory).
// Refused: bad_input where the lot would be beyond a million.
Result<ReorderPolicy> best_reorder_policy(const ReorderTerms& terms);

}  // namespace hw::kits
