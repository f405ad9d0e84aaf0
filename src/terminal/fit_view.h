#pragma once
// A line through readings as the commands print it, in the names of tests/published/t5_trend.json.

#include <array>
#include <vector>

#include <boost/describe/class.hpp>

#include "src/condition/line_fit.h"

namespace hw::condition {

BOOST_DESCRIBE_STRUCT(LineFit, (), (n, intercept, slope, se_intercept, se_slope, residual_sd, r2, rss, slope_t))
BOOST_DESCRIBE_STRUCT(LinePrediction, (), (x, fit, ci, pi))

}  // namespace hw::condition

namespace hw::terminal {

struct FitView : condition::LineFit {
  std::vector<condition::LinePrediction> predict;
};
BOOST_DESCRIBE_STRUCT(FitView, (condition::LineFit), (predict))

// `at` are the x to predict at.
inline FitView fit_view(const condition::LineFit& fit, const std::vector<double>& at, double conf) {
  FitView view{fit, {}};
  for (const double x : at) view.predict.push_back(condition::predict(fit, x, conf));
  return view;
}

}  // namespace hw::terminal
