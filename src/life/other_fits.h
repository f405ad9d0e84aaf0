#pragma once
// The exponential and the lognormal distribution beside the Weibull, by maximum likelihood from the same lives, so that
// Akaike's criterion (AIC = 2 parameters - 2 log-likelihood; less is better) can compare them.

#include <span>

#include "libs/values/result.h"
#include "src/life/log_lives.h"
#include "src/life/weibull_fit.h"

namespace hw::life {

struct ExponentialFit {
  double mean = 0;
  double loglik = 0;
  double aic() const { return 2 - 2 * loglik; }
};
// A Weibull of shape 1. Errors: bad_input for no failure, or none that was not failed at every look.
Result<ExponentialFit> fit_exponential(const WeibullLikelihood& likelihood);

struct LognormalFit {
  double mu = 0;     // mean of log age
  double sigma = 0;  // standard deviation of log age
  double loglik = 0;
  double aic() const { return 4 - 2 * loglik; }
};
// Errors as fit_weibull.
Result<LognormalFit> fit_lognormal(std::span<const Observed> lives);

}  // namespace hw::life
