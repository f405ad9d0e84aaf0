#include "libs/formats/json.h"
#include "src/condition/drift_fit.h"
#include "src/condition/mann_kendall.h"
#include "src/condition/sen_slope.h"
#include "src/condition/series.h"
#include "src/terminal/condition_answers.h"
#include "src/terminal/fit_view.h"
#include "src/terminal/series_file.h"

namespace hw::condition {

BOOST_DESCRIBE_STRUCT(OriginFit, (), (slope, se_slope, residual_sd, r2_uncentred))

}  // namespace hw::condition

namespace hw::terminal {
namespace {

struct TrendView : FitView {
  double conf = 0, slope_p_one_sided = 0;
  double sen_slope = 0, intercept_median_y_minus_slope_median_x = 0, intercept_median_of_residuals = 0;
  std::array<double, 2> slope_ci95_gilbert_interpolated{};
  long long mk_S = 0;
  double mk_var = 0, mk_z = 0, mk_p_two_sided = 0, kendall_tau_b = 0;
  formats::OrNull<double> mk_p_exact_one_sided;
  formats::OrNull<double> nu, sigma_mle, sigma_unbiased, se_nu;  // null unless each reading comes after the one before
};
BOOST_DESCRIBE_STRUCT(TrendView, (FitView),
                      (conf, slope_p_one_sided, sen_slope, intercept_median_y_minus_slope_median_x,
                       intercept_median_of_residuals, slope_ci95_gilbert_interpolated, mk_S, mk_var, mk_z,
                       mk_p_two_sided, kendall_tau_b, mk_p_exact_one_sided, nu, sigma_mle, sigma_unbiased, se_nu))

void add_wiener(TrendView& view, const PairedSeries& series) {
  const auto drift = condition::fit_drift(series.at, series.values);
  if (!drift) return;
  view.nu.emplace(drift->nu);
  view.sigma_mle.emplace(drift->sigma_mle);
  view.sigma_unbiased.emplace(drift->sigma_unbiased);
  view.se_nu.emplace(drift->se_nu);
}

Result<TrendView> trend_of(const ConditionCall& call, const PairedSeries& series) {
  HW_TAKE(fit, condition::fit_line(series.at, series.values));
  HW_TAKE(sen, condition::sen_slope(series.at, series.values));
  HW_TAKE(kendall, condition::mann_kendall(series.at, series.values));
  TrendView view;
  static_cast<FitView&>(view) = fit_view(fit, call.at, call.conf);
  view.conf = call.conf;
  view.slope_p_one_sided = condition::slope_p_one_sided(fit);
  view.sen_slope = sen.slope;
  view.intercept_median_y_minus_slope_median_x = sen.intercept_from_medians;
  view.intercept_median_of_residuals = sen.intercept_from_residuals;
  view.slope_ci95_gilbert_interpolated = sen.slope_ci95;
  view.mk_S = kendall.S;
  view.mk_var = kendall.variance;
  view.mk_z = kendall.z;
  view.mk_p_two_sided = kendall.p_two_sided;
  view.kendall_tau_b = kendall.tau_b;
  if (kendall.p_exact_one_sided) view.mk_p_exact_one_sided.emplace(*kendall.p_exact_one_sided);
  add_wiener(view, series);
  return view;
}

std::string print_trend(const TrendView& view) {
  std::string text =
      fmt::format("line: y = {:.6g} + {:.6g} x, standard error of the slope {:.3g}, scatter {:.4g}, n {}\n",
                  view.intercept, view.slope, view.se_slope, view.residual_sd, view.n);
  for (const condition::LinePrediction& at : view.predict) {
    text += fmt::format(
        "  at {:g}: {:.6g}, the line lies within {:.6g} to {:.6g}, a new reading within {:.6g} to {:.6g} ({:g} %)\n",
        at.x, at.fit, at.ci[0], at.ci[1], at.pi[0], at.pi[1], 100 * view.conf);
  }
  text +=
      fmt::format("Sen's slope {:.6g}, 95 % {:.6g} to {:.6g}; intercept {:.6g} from medians, {:.6g} from residuals\n",
                  view.sen_slope, view.slope_ci95_gilbert_interpolated[0], view.slope_ci95_gilbert_interpolated[1],
                  view.intercept_median_y_minus_slope_median_x, view.intercept_median_of_residuals);
  text += fmt::format("Mann-Kendall: S {}, z {:.4f}, two-sided p {:.4g}", view.mk_S, view.mk_z, view.mk_p_two_sided);
  text += view.mk_p_exact_one_sided ? fmt::format(", exact one-sided p {:.4g}\n", *view.mk_p_exact_one_sided) : "\n";
  if (!view.nu) return text;
  return text + fmt::format("drift {:.6g}, standard error {:.3g}, scatter {:.4g}\n", *view.nu, *view.se_nu,
                            *view.sigma_unbiased);
}

Answer origin_answer(const ConditionCall& call, const PairedSeries& series) {
  HW_TAKE(fit, condition::fit_through_origin(series.at, series.values));
  return Said(call.is_json
                  ? formats::print_json(fit) + "\n"
                  : fmt::format("line through the origin: y = {:.6g} x, standard error {:.3g}, scatter {:.4g}\n",
                                fit.slope, fit.se_slope, fit.residual_sd));
}

}  // namespace

Answer trend_answer(const ConditionCall& call) {
  HW_TRY(condition::check_confidence(call.conf));
  HW_TRY(condition::check_series(call.at, "at", 0));
  HW_TAKE(table, read_series_table(call.file));
  HW_TAKE(series, paired_series(table));
  if (call.through_origin) return origin_answer(call, series);
  HW_TAKE(view, trend_of(call, series));
  return Said(call.is_json ? formats::print_json(view) + "\n" : print_trend(view));
}

}  // namespace hw::terminal
