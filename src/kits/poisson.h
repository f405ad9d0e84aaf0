#pragma once
// The Poisson distribution as stock needs it. D is the demand, of that mean (at least 0, up to 1e9).

#include <cstddef>
#include <vector>

namespace hw::kits {

double poisson_at(double mean, double k);     // P(D = k), k whole and at least 0
double poisson_below(double mean, double s);  // P(D <= s); 0 for s < 0
double poisson_above(double mean, double s);  // P(D > s), to the last digits where it is small; 1 for s < 0

// The smallest whole s >= 0 with P(D <= s) >= chance, which lies in (0, 1). Rounding in the last digit counts in favour
// of the smaller s.
double poisson_level(double mean, double chance);

// E(D - s)+ and E(s - D)+ for whole s: the units missing, and left over. Each is a sum of positive terms on the side of
// the mean where it is small; the other follows by E(D - s)+ - E(s - D)+ = mean - s.
double poisson_missing(double mean, double s);
double poisson_left(double mean, double s);

// P(D = first + n) = chances[n], for all numbers with at least that much of a chance beside the likeliest; they are
// scaled to sum up to 1. `run` keeps its room for the next one.
struct PoissonRun {
  std::size_t first = 0;
  std::vector<double> chances = {1};
};
void fill_poisson_run(PoissonRun& run, double mean, double chance_least);

}  // namespace hw::kits
