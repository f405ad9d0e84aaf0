#pragma once
// How much to have for one period: what is left over costs `over` a unit, what is missing costs `under` (Arrow, Harris
// and Marschak 1951; Snyder and Shen, Fundamentals of Supply Chain Theory, chapter 4). The service measure is P(D <=
// S), nothing missing in the period; it is at least the critical ratio under / (over + under).

namespace hw::kits {

struct PeriodCosts {
  double over = 0;   // of a unit left over, above 0
  double under = 0;  // of a unit missing, above 0
};

double critical_ratio(const PeriodCosts& costs);

struct PeriodStock {
  double level = 0;         // S
  double cost = 0;          // expected: over E(S - D)+ + under E(D - S)+
  double no_stock_out = 0;  // P(D <= S)
};

// Normal demand, sd above 0: S = mean + z sd with z = Phi^-1(ratio), cost (over + under) sd phi(z).
PeriodStock newsvendor_normal(const PeriodCosts& costs, double mean, double sd);

// Poisson demand of that mean, at least 0: the smallest whole S with P(D <= S) >= ratio.
PeriodStock newsvendor_poisson(const PeriodCosts& costs, double mean);

}  // namespace hw::kits
