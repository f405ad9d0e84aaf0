#pragma once
// The log-linear intensity of a repaired machine's failures (Cox and Lewis 1966): exp(gamma0 + gamma1 t) on (0, T].

#include "src/life/repairs.h"

namespace hw::life {

struct LogLinear {
  double gamma0 = 0;
  double gamma1 = 0;
  double loglik = 0;
};

// By maximum likelihood: the mean age of failures is that of the intensity. Failures that ended the watch are left out
// (see trend.h). Errors: bad_input without a failure before the end.
Result<LogLinear> fit_log_linear(const Repairs& repairs);

}  // namespace hw::life
