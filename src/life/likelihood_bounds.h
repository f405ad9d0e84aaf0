#pragma once
// Likelihood-ratio intervals: all values of a figure for which, with the rest as well fitted as they allow, the
// log-likelihood is within chi2(conf; 1) / 2 of its maximum (Wilks 1938; Meeker and Escobar 1998, from memory).
//
// A figure held fixed is a straight line of (slope, level) as well, so the profile is found in one variable, and the
// set of lines that are likely enough is convex: its two ends are all there is to find. Where the lives set no end,
// the bound is 0 or infinite (a reliability: 0 or 1).

#include "src/life/weibull_fit.h"

namespace hw::life {

Bounds likely_shape(const WeibullLikelihood& likelihood, const WeibullFit& fit, double conf);
// Of the age by which that share has failed.
Bounds likely_quantile(const WeibullLikelihood& likelihood, const WeibullFit& fit, double share, double conf);
// The age by which 1 - 1/e have failed.
Bounds likely_scale(const WeibullLikelihood& likelihood, const WeibullFit& fit, double conf);
Bounds likely_reliability(const WeibullLikelihood& likelihood, const WeibullFit& fit, double age, double conf);

}  // namespace hw::life
