#pragma once
// The Weibull distribution: R(t) = exp(-(t / scale)^shape). Shape and scale above 0; ages in the unit of the scale.

namespace hw::life {

struct Weibull {
  double shape = 1;
  double scale = 1;
};

// P(life > age), age at least 0.
double reliability(const Weibull& life, double age);
// Failures per unit of age among those still good, age above 0.
double hazard(const Weibull& life, double age);
// The age by which that share has failed, share inside (0, 1).
double quantile(const Weibull& life, double share);
// May be infinite where the shape is tiny.
double mean_life(const Weibull& life);
double life_spread(const Weibull& life);  // the standard deviation
// The mean time until failure or that age, whichever comes first: the integral of R from 0 to age.
double mean_life_until(const Weibull& life, double age);

}  // namespace hw::life
