#include "src/service/life_figures.h"

#include <cmath>

#include "src/life/likelihood_bounds.h"
#include "src/life/survival.h"
#include "src/life/turnbull.h"

namespace hw::service {

EndsView ends_of(const life::Bounds& bounds) {
  EndsView ends{bounds.lower, {}};
  if (std::isfinite(bounds.upper)) ends.upper = bounds.upper;
  return ends;
}

std::optional<double> finite_only(double number) {
  return std::isfinite(number) ? std::optional{number} : std::nullopt;
}

FitFigures figures_of(const life::WeibullLikelihood& likelihood, const life::WeibullFit& fit) {
  return {.shape = fit.life.shape,
          .scale = fit.life.scale,
          .shape_range = ends_of(life::likely_shape(likelihood, fit, shown_conf)),
          .scale_range = ends_of(life::likely_scale(likelihood, fit, shown_conf)),
          .b10 = life::quantile(fit.life, 0.1),
          .b10_range = ends_of(life::likely_quantile(likelihood, fit, 0.1, shown_conf))};
}

SurvivalView survival_of(std::span<const life::Observed> lives) {
  SurvivalView view;
  if (lives.empty()) return view;
  if (const auto steps = life::estimate_survival(lives, life::SurvivalScale::log_log, shown_conf)) {
    view.method = "Kaplan-Meier";
    for (const auto& step : *steps) view.points.push_back({step.age, step.survival, step.lower, step.upper});
    return view;
  }
  const auto estimate = life::estimate_turnbull(lives);
  if (!estimate) return view;
  view.method = "Turnbull";
  for (const auto& at : estimate->survival) view.points.push_back({at.age, at.survival, {}, {}});
  return view;
}

}  // namespace hw::service
