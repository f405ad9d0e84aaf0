#pragma once
// Figures of lives as views show them, with 95 % intervals.

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "src/life/weibull_fit.h"
#include "src/service/lives_views.h"

namespace hw::service {

inline constexpr double shown_conf = 0.95;

EndsView ends_of(const life::Bounds& bounds);
std::optional<double> finite_only(double number);

// The likeliest Weibull distribution; ranges by likelihood ratio.
struct FitFigures {
  double shape = 0;
  double scale = 0;
  EndsView shape_range;
  EndsView scale_range;
  double b10 = 0;  // the age by which a tenth has failed
  EndsView b10_range;
};
BOOST_DESCRIBE_STRUCT(FitFigures, (), (shape, scale, shape_range, scale_range, b10, b10_range))
FitFigures figures_of(const life::WeibullLikelihood& likelihood, const life::WeibullFit& fit);

// The share still good: by Kaplan and Meier, or where ages of failures are not known by Turnbull. Of no lives, and
// where neither says anything, there is no method and no point.
struct SurvivalView {
  std::string method;
  std::vector<SurvivalPointView> points;  // ascending
};
SurvivalView survival_of(std::span<const life::Observed> lives);

}  // namespace hw::service
