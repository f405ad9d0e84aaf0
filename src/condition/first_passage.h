#pragma once
// When a value that drifts and scatters first reaches a limit: X(t) = x0 + nu t + sigma W(t), W a Wiener process, d the
// distance from x0 to the limit.
//
//   F(t) = Phi((nu t - d) / (sigma sqrt t)) + exp(2 nu d / sigma^2) Phi(-(nu t + d) / (sigma sqrt t))
//
// For nu > 0 this is the inverse Gaussian distribution with mean d / nu and shape (d / sigma)^2 (Chhikara and Folks
// 1989); for nu <= 0 the limit may never be reached: F(t) -> exp(2 nu d / sigma^2). That exp alone overflows from
// shape / mean = 355 on; with a and b the arguments of the two Phi, 2 nu d / sigma^2 - b^2 / 2 = -a^2 / 2, so the
// second term is phi(a) Phi(-b) / phi(b), which does not.

#include <optional>

#include "libs/values/result.h"

namespace hw::condition {

struct Drift {
  double nu = 0;     // per unit of time, toward the limit
  double sigma = 0;  // per square root of time
};

// Refuses d and sigma outside 1e-30 to 1e30 and a drift beyond 1e30 either way.
Result<void> check_passage(const Drift& drift, double d);

// P(reached by time t), t at least 0, for what check_passage passes; so below.
double first_passage_below(const Drift& drift, double d, double t);

struct FirstPassage {
  double mean = 0, shape_lambda = 0, sd = 0;
};

// Refuses a drift below 1e-30 too: without one toward the limit there is no mean.
Result<FirstPassage> first_passage(const Drift& drift, double d);

// The time by which the chance is `probability`, in (0, 1); nothing where it is never reached.
std::optional<double> first_passage_quantile(const Drift& drift, double d, double probability);

}  // namespace hw::condition
