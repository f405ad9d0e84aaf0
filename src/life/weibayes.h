#pragma once
// The scale of a Weibull distribution whose shape is known from elsewhere, for few failures or none (Weibayes; Nelson
// 1985, Journal of Quality Technology 17; from memory).

#include <optional>
#include <span>

#include "libs/values/result.h"
#include "src/life/observed.h"

namespace hw::life {

struct AssumedShape {
  double shape = 1;
  std::optional<double> scale = {};  // (sum t^shape / failures)^(1/shape); nothing without failures
  double scale_lower = 0;            // one-sided
  double failures = 0;
  double suspensions = 0;
};

// With t^shape in place of t the lives are exponential, so with r failures, conf one-sided,
//   scale_lower = (2 sum t^shape / chi2(conf; 2 r + 2))^(1/shape)
// and without any, (sum t^shape / -log(1 - conf))^(1/shape). A life entered at e counts t^shape - e^shape. Shape above
// 0, conf inside (0, 1). Errors: bad_input where a life failed between two looks, for which this has no form.
Result<AssumedShape> assume_shape(std::span<const Observed> lives, double shape, double conf);

}  // namespace hw::life
