#pragma once
// When a value that drifts and scatters first reaches a limit: X(t) = x0 + nu t + sigma W(t), W a Wiener process, d the
// distance from x0 to the limit.
//
//   F(t) = Phi((nu t - d) / (sigma sqrt t)) + exp(2 nu d / sigma^2) Phi(-(nu t + d) / (sigma sqrt t))
//
// For nu > 0 this is the inverse Gaussian distribution with mean d / nu and shape (d / sigma)^2 (Chhikara and Folks
// 1989); for nu <= 0 the limit may never be reached: F(t) -> exp(2 nu d / sigma^2). The second term is formed from
// logarithms, because exp alone overflows from shape / mean = 355 on.

#include <optional>

#include "libs/values/result.h"

namespace hw::condition {

struct Drift {
  double nu = 0;     // per unit of time, toward the limit
  double sigma = 0;  // per square root of time
};

// P(reached by time t). d and sigma above 0, t at least 0.
double first_passage_below(const Drift& drift, double d, double t);

struct FirstPassage {
  double mean = 0, shape_lambda = 0, sd = 0;
};

// Refuses d, nu or sigma that are not above 0: without a drift to the limit there is no mean.
Result<FirstPassage> first_passage(const Drift& drift, double d);

// The time by which the chance is `probability`, in (0, 1); nothing where it is never reached. d and sigma above 0.
std::optional<double> first_passage_quantile(const Drift& drift, double d, double probability);

}  // namespace hw::condition
