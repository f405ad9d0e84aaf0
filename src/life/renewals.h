#pragma once
// How often a part fails up to an age where each that fails is replaced by a new one: the renewal function
// M(t) = F(t) + integral of M(t - x) dF(x), and its density m (Smith and Leadbetter 1963 have the series; here the
// integral equation itself, on a grid and on one twice as fine, extrapolated).

#include <vector>

#include "src/life/weibull.h"

namespace hw::life {

struct Renewals {
  double expected = 0;  // M(t), to about 1e-8
  double density = 0;   // m(t) per unit of age, to about 1e-6; for shapes of at least 1
};

// At 0, 1, 2 ... `cells` of as many parts of that age, to about 1e-4 with 1000 cells; both above 0.
std::vector<Renewals> renewals_along(const Weibull& life, double age, std::size_t cells);

// Age at least 0, at most 50 times the scale; shapes up to 50, above which the grid is too coarse for the density.
Renewals renewals_by(const Weibull& life, double age);

}  // namespace hw::life
