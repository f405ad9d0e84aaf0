#include "libs/formats/json.h"
#include "src/condition/drift_fit.h"
#include "src/condition/line_crossing.h"
#include "src/condition/series.h"
#include "src/due/reading_crossing.h"
#include "src/terminal/condition_answers.h"
#include "src/terminal/fit_view.h"
#include "src/terminal/series_file.h"

namespace hw::terminal {
namespace {

using formats::OrNull;

constexpr std::array<double, 5> shown_passage_chances = {.05, .1, .5, .9, .95};

struct PassageChance {
  double t = 0, F = 0;
};
BOOST_DESCRIBE_STRUCT(PassageChance, (), (t, F))

struct PassageQuantile {
  double p = 0;
  OrNull<double> t;
};
BOOST_DESCRIBE_STRUCT(PassageQuantile, (), (p, t))

struct PassageView {
  double d = 0;
  OrNull<double> mean, shape_lambda, sd;  // null without a drift toward the limit
  std::vector<PassageChance> cdf;
  std::vector<PassageQuantile> quantiles;
};
BOOST_DESCRIBE_STRUCT(PassageView, (), (d, mean, shape_lambda, sd, cdf, quantiles))

struct CrossingView {
  FitView fit;
  double limit = 0, conf = 0;
  OrNull<double> line_crossing;
  double slope_p_one_sided = 0;
  std::optional<OrNull<double>> upper_one_sided_pi_crossing, lower_one_sided_pi_crossing;  // that toward the limit
  OrNull<std::array<double, 2>> fieller;
  OrNull<double> nu, sigma_mle, sigma_unbiased, se_nu;
  OrNull<PassageView> passage;          // t counts from the last reading
  std::optional<LocalDate> first_date;  // from which x counts in days
  std::optional<std::map<std::string, OrNull<LocalDate>>> due;
  std::vector<std::string> notes;
};
BOOST_DESCRIBE_STRUCT(CrossingView, (),
                      (fit, limit, conf, line_crossing, slope_p_one_sided, upper_one_sided_pi_crossing,
                       lower_one_sided_pi_crossing, fieller, nu, sigma_mle, sigma_unbiased, se_nu, passage, first_date,
                       due, notes))

template <class T>
OrNull<T> may_be_null(const std::optional<T>& value) {
  OrNull<T> result;
  if (value) result.emplace(*value);
  return result;
}

Result<PassageView> passage_of(const condition::Drift& drift, double d, const std::vector<double>& at) {
  PassageView view{.d = d, .mean = {}, .shape_lambda = {}, .sd = {}, .cdf = {}, .quantiles = {}};
  HW_TRY(condition::check_passage(drift, d));
  if (drift.nu > 0) {
    HW_TAKE(moments, condition::first_passage(drift, d));
    view.mean.emplace(moments.mean);
    view.shape_lambda.emplace(moments.shape_lambda);
    view.sd.emplace(moments.sd);
  }
  for (const double t : at) {
    if (!(t >= 0)) return refuse(ErrorCode::bad_input, "at: a time from 0 on, not {}", t);
    view.cdf.push_back({t, condition::first_passage_below(drift, d, t)});
  }
  for (const double p : shown_passage_chances) {
    view.quantiles.push_back({p, may_be_null(condition::first_passage_quantile(drift, d, p))});
  }
  return view;
}

std::string print_passage(const PassageView& view) {
  std::string text = fmt::format("first passage over {:.6g}", view.d);
  text += view.mean ? fmt::format(": mean {:.6g}, sd {:.6g}\n", *view.mean, *view.sd) : ": may never come\n";
  for (const PassageChance& one : view.cdf) text += fmt::format("  by {:g}: {:.4f}\n", one.t, one.F);
  for (const PassageQuantile& one : view.quantiles) {
    text += fmt::format("  {:.0f} %: {}\n", 100 * one.p, one.t ? fmt::format("{:.6g}", *one.t) : "never");
  }
  return text;
}

// Without readings: the distance, drift and scatter are given.
Answer given_passage(const ConditionCall& call) {
  if (!call.d || !call.nu || !call.sigma) {
    return refuse(ErrorCode::wrong_usage, "crossing: either a file and --limit, or --d, --nu and --sigma");
  }
  HW_TAKE(view, passage_of({*call.nu, *call.sigma}, *call.d, call.at));
  return Said(call.is_json ? formats::print_json(view) + "\n" : print_passage(view));
}

Result<void> add_drift(CrossingView& view, const ConditionCall& call, const PairedSeries& series,
                       condition::LimitSide side) {
  const auto drift = condition::fit_drift(series.at, series.values);
  if (!drift) {
    view.notes.push_back("no drift and scatter: " + drift.error().message);
    return {};
  }
  view.nu.emplace(drift->nu);
  view.sigma_mle.emplace(drift->sigma_mle);
  view.sigma_unbiased.emplace(drift->sigma_unbiased);
  view.se_nu.emplace(drift->se_nu);
  const double toward = side == condition::LimitSide::above ? 1 : -1;
  const double left = toward * (view.limit - series.values.back());
  if (left <= 0) {
    view.notes.emplace_back("the last reading is on the limit or beyond it");
  } else if (!(drift->sigma_unbiased > 0)) {
    view.notes.emplace_back("the readings lie exactly on a line, so there is no scatter");
  } else {
    HW_TAKE(passage, passage_of({toward * drift->nu, drift->sigma_unbiased}, left, call.at));
    view.passage.emplace(passage);
  }
  return {};
}

Result<void> add_dates(CrossingView& view, const PairedSeries& series, condition::LimitSide side) {
  if (series.dates.empty()) return {};
  view.first_date = series.dates.front();
  std::vector<due::DatedReading> readings;
  for (std::size_t n = 0; n < series.dates.size(); ++n) readings.push_back({series.dates[n], series.values[n]});
  const auto distribution = due::reading_due(readings, view.limit, side);
  if (!distribution) {
    view.notes.push_back("no dates: " + distribution.error().message);
    return {};
  }
  view.due.emplace();
  for (const double chance : due::shown_chances) {
    (*view.due)[fmt::format("{}", chance)] = may_be_null(due::quantile(*distribution, chance));
  }
  return {};
}

Result<CrossingView> crossing_of(const ConditionCall& call, const PairedSeries& series) {
  const double limit = *call.limit;
  HW_TRY(condition::check_series({&limit, 1}, "limit", 1));
  HW_TAKE(fit, condition::fit_line(series.at, series.values));
  const condition::LineCrossing crossing = condition::cross_limit(fit, limit, call.conf);
  // A rising line looks for a limit above, a falling one for one below; without a slope the last reading decides.
  const bool is_above = fit.slope != 0 ? fit.slope > 0 : limit >= series.values.back();
  const auto side = is_above ? condition::LimitSide::above : condition::LimitSide::below;
  CrossingView view;
  view.fit = fit_view(fit, {}, call.conf);
  view.limit = limit;
  view.conf = call.conf;
  view.line_crossing = may_be_null(crossing.line_crossing);
  view.slope_p_one_sided = condition::slope_p_one_sided(fit);
  (is_above ? view.upper_one_sided_pi_crossing : view.lower_one_sided_pi_crossing) = may_be_null(crossing.pi_crossing);
  view.fieller = may_be_null(crossing.fieller);
  if (!crossing.fieller) view.notes.emplace_back("the slope cannot be told from none, so the crossing has no interval");
  HW_TRY(add_drift(view, call, series, side));
  HW_TRY(add_dates(view, series, side));
  return view;
}

std::string number_or_none(const std::optional<double>& value) {
  return value ? fmt::format("{:.6g}", *value) : std::string("none");
}

std::string print_crossing(const CrossingView& view) {
  const OrNull<double> bound =
      view.upper_one_sided_pi_crossing.value_or(view.lower_one_sided_pi_crossing.value_or(OrNull<double>{}));
  std::string text =
      fmt::format("line: y = {:.6g} + {:.6g} x, one-sided p of its slope {:.3g}\n", view.fit.intercept, view.fit.slope,
                  view.slope_p_one_sided) +
      fmt::format("limit {:g}: the line meets it at {}, a reading may from {} on (one-sided {:g} %)\n", view.limit,
                  number_or_none(view.line_crossing), number_or_none(bound), 100 * view.conf);
  if (view.first_date) text += fmt::format("  in days from {} on\n", print(*view.first_date));
  if (view.fieller) {
    text += fmt::format("  the crossing of the line lies within {:.6g} to {:.6g} ({:g} %, Fieller)\n",
                        (*view.fieller)[0], (*view.fieller)[1], 100 * view.conf);
  }
  if (view.nu) {
    text += fmt::format("drift {:.6g}, standard error {:.3g}, scatter {:.4g}\n", *view.nu, *view.se_nu,
                        *view.sigma_unbiased);
  }
  if (view.passage) text += "from the last reading on, " + print_passage(*view.passage);
  if (view.due) {
    for (const auto& [chance, day] : *view.due) {
      text += fmt::format("  due by {} with {:g} %\n", day ? print(*day) : "no day", 100 * std::stod(chance));
    }
  }
  for (const std::string& note : view.notes) text += note + "\n";
  return text;
}

}  // namespace

Answer crossing_answer(const ConditionCall& call) {
  if (call.file.empty()) return given_passage(call);
  if (!call.limit) return refuse(ErrorCode::wrong_usage, "crossing: --limit is needed with a file");
  HW_TRY(condition::check_confidence(call.conf));
  HW_TAKE(table, read_series_table(call.file));
  HW_TAKE(series, paired_series(table));
  HW_TAKE(view, crossing_of(call, series));
  return Said(call.is_json ? formats::print_json(view) + "\n" : print_crossing(view));
}

}  // namespace hw::terminal
