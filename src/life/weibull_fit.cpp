#include "src/life/weibull_fit.h"

#include <cmath>
#include <optional>

#include "libs/numerics/normal_tail.h"

namespace hw::life {
namespace {

// Failures that all may have come at one age which no part outlived: the steeper the line, the likelier, without end.
bool is_endless(const LogLives& lives) {
  if (lives.exact.empty()) return false;
  const double y = lives.exact.front().y;
  for (const LogAge& age : lives.exact) {
    if (age.y != y) return false;
  }
  for (const LogAge& age : lives.survived) {
    if (age.weight > 0 && age.y > y) return false;
  }
  for (const LogGap& gap : lives.gaps) {
    if (gap.y_lower >= y || gap.y_upper < y) return false;
  }
  return true;
}

tl::unexpected<Error> refuse_ending(Ending ending) {
  if (ending == Ending::slope_endless) {
    return refuse(
        ErrorCode::bad_input, Saying{"life-one-age"},
        "no finite Weibull fit: the likelihood rises without end as the shape grows; all failures fit one age "
        "that no part outlived");
  }
  if (ending == Ending::slope_vanishes) {
    return refuse(
        ErrorCode::bad_input, Saying{"life-no-wear"},
        "no Weibull fit: the likelihood rises while the shape falls to 0; the older parts seen failed no more "
        "often than the younger ones");
  }
  return refuse(ErrorCode::bad_input, Saying{"life-undetermined"},
                "no Weibull fit: the lives do not determine the shape; more looks at other ages, or exact ages of "
                "failures, are needed");
}

// The covariance of (slope, level) is the inverse of the information; from there by the derivatives of
// log shape = log slope and log scale = origin - level / slope.
void set_variances(WeibullFit& fit, const Terms& at) {
  const double determinant = at.by_slope2 * at.by_level2 - at.by_slope_level * at.by_slope_level;
  const double slope2 = -at.by_level2 / determinant;
  const double level2 = -at.by_slope2 / determinant;
  const double slope_level = at.by_slope_level / determinant;
  const double slope = fit.line.slope;
  const double by_slope = fit.line.level / (slope * slope);
  const double by_level = -1 / slope;
  fit.log_shape_variance = slope2 / (slope * slope);
  fit.log_scale_variance =
      by_slope * by_slope * slope2 + 2 * by_slope * by_level * slope_level + by_level * by_level * level2;
  fit.log_covariance = (by_slope * slope2 + by_level * slope_level) / slope;
}

Bounds around(double value, double variance, double conf) {
  const double half = wald_deviate(conf) * std::sqrt(variance);
  return {value - half, value + half};
}

}  // namespace

Result<WeibullFit> fit_weibull(const WeibullLikelihood& likelihood) {
  const LogLives& lives = likelihood.lives();
  if (lives.counts.failures == 0) {
    return refuse(ErrorCode::bad_input, Saying{"life-no-failure"},
                  "no failure among them: nothing but a lower bound of the scale can be said, for a shape that is "
                  "assumed");
  }
  if (is_endless(lives)) return refuse_ending(Ending::slope_endless);
  const Highest highest = maximise(likelihood, likelihood.start());
  if (highest.ending != Ending::found) return refuse_ending(highest.ending);
  const double scale = likelihood.weibull(highest.line).scale;
  if (!(scale > 0 && scale < never)) return refuse_ending(Ending::undetermined);
  WeibullFit fit{likelihood.weibull(highest.line), highest.line, highest.terms.value, lives.counts};
  set_variances(fit, highest.terms);
  return fit;
}

double wald_deviate(double conf) { return numerics::normal_quantile(0.5 + 0.5 * conf); }

Bounds wald_shape(const WeibullFit& fit, double conf) {
  const Bounds bounds = around(std::log(fit.life.shape), fit.log_shape_variance, conf);
  return {std::exp(bounds.lower), std::exp(bounds.upper)};
}

// log t = log scale + c / shape with c = log(-log(1 - share)).
Bounds wald_quantile(const WeibullFit& fit, double share, double conf) {
  const double by_log_shape = -std::log(-std::log1p(-share)) / fit.life.shape;
  const double variance = fit.log_scale_variance + 2 * by_log_shape * fit.log_covariance +
                          by_log_shape * by_log_shape * fit.log_shape_variance;
  const Bounds bounds = around(std::log(quantile(fit.life, share)), variance, conf);
  return {std::exp(bounds.lower), std::exp(bounds.upper)};
}

// log(-log R) = shape (log age - log scale).
Bounds wald_reliability(const WeibullFit& fit, double age, double conf) {
  const double z = fit.life.shape * (std::log(age) - std::log(fit.life.scale));
  const double variance = z * z * fit.log_shape_variance - 2 * z * fit.life.shape * fit.log_covariance +
                          fit.life.shape * fit.life.shape * fit.log_scale_variance;
  const Bounds bounds = around(z, variance, conf);
  return {std::exp(-std::exp(bounds.upper)), std::exp(-std::exp(bounds.lower))};
}

std::vector<Caution> cautions_of(const WeibullFit& fit, const Bounds& shape) {
  std::vector<Caution> cautions;
  const double failures = fit.counts.failures;
  if (failures < 20 && failures >= 3) {
    const double ratio = std::round(100 * (failures - 0.68) / (failures - 2)) / 100;
    cautions.push_back(
        {{"life-few-failures", {}, {{"failures", failures}, {"ratio", ratio}}},
         fmt::format("with {} failures the shape comes out too high on average: {:.2f} times the true one in complete "
                     "samples",
                     failures, ratio)});
  }
  if (failures < 3) {
    cautions.push_back(
        {{"life-hardly-failures"},
         "with one or two failures the shape is next to unknown: look at its interval, not at its value"});
  }
  if (!(shape.upper < 10 * shape.lower)) {
    cautions.push_back({{"life-wide-shape"},
                        "the shape's interval spans more than a factor of ten: the fit is nearly worthless by itself"});
  } else if (shape.lower < 1 && shape.upper > 1) {
    cautions.push_back({{"life-wear-unknown"},
                        "whether parts wear out (shape above 1) cannot be told yet: 1 is inside the shape's interval"});
  }
  return cautions;
}

}  // namespace hw::life
