#pragma once
// The Weibull distribution that makes the lives seen most likely (maximum likelihood; Nelson 1982, Applied Life Data
// Analysis; Lawless 2003; from memory).

#include <string>
#include <vector>

#include "libs/values/result.h"
#include "src/life/maximise.h"
#include "src/life/weibull_likelihood.h"

namespace hw::life {

struct WeibullFit {
  Weibull life;
  Line line;  // the same as a line over log age
  double loglik = 0;
  LifeCounts counts;
  // Of the logarithms of shape and scale, from the observed information.
  double log_shape_variance = 0;
  double log_scale_variance = 0;
  double log_covariance = 0;

  double aic() const { return 4 - 2 * loglik; }
};

// Errors, bad_input with the reason: no failure among them; failures that all fit one age that nobody outlived, so that
// the likelihood rises without end; ages that say nothing of the shape.
Result<WeibullFit> fit_weibull(const WeibullLikelihood& likelihood);

// P(|Z| <= wald_deviate(conf)) = conf for a standard normal Z; conf inside (0, 1).
double wald_deviate(double conf);

// By the normal distribution of the logarithm (of log(-log R) for a reliability), as most books have it. Good for many
// failures; with few, the bounds of likelihood_bounds.h keep what they promise better.
struct Bounds {
  double lower = 0;
  double upper = 0;
};
Bounds wald_shape(const WeibullFit& fit, double conf);
// Of the age by which that share has failed; the scale is that of the share 1 - 1/e.
Bounds wald_quantile(const WeibullFit& fit, double share, double conf);
Bounds wald_reliability(const WeibullFit& fit, double age, double conf);

// What a reader has to know before believing a fit.
struct Caution {
  Saying saying;
  std::string says;
};
// Empty for many failures.
std::vector<Caution> cautions_of(const WeibullFit& fit, const Bounds& shape);

}  // namespace hw::life
