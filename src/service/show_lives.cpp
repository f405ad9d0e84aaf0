#include <algorithm>
#include <cmath>
#include <numeric>

#include "libs/formats/enum_words.h"
#include "src/life/likelihood_bounds.h"
#include "src/life/other_fits.h"
#include "src/service/life_figures.h"
#include "src/service/lives.h"

namespace hw::service {
namespace {

constexpr int curve_points = 25;
constexpr int cost_points = 40;
constexpr double money_most = 1e9;

std::optional<AsFound> as_found(life::Found found) {
  switch (found) {
    case life::Found::good:
      return AsFound::good;
    case life::Found::worn:
      return AsFound::worn;
    case life::Found::failed:
      return AsFound::failed;
    case life::Found::unsaid:
      return std::nullopt;
  }
  return std::nullopt;
}

void add_lives(PartStudyView& view, const PartStudy& study) {
  for (const SeenLife& seen : study.seen.lives) {
    view.lives.push_back(
        {seen.machine, seen.entry, seen.ended_at, as_found(seen.found), seen.life.lower, finite_only(seen.life.upper)});
  }
  for (const LeftOutLife& one : study.seen.left_out) {
    view.left_out.push_back({one.machine, one.entry, one.at, formats::print_word(one.why)});
  }
}

LifeFitView fit_view(const PartStudy& study, double oldest) {
  const life::WeibullLikelihood likelihood(study.lives);
  const life::WeibullFit& fit = *study.fit;
  const FitFigures figures = figures_of(likelihood, fit);
  LifeFitView view;
  view.shape = figures.shape;
  view.scale = figures.scale;
  view.shape_range = figures.shape_range;
  view.scale_range = figures.scale_range;
  view.b10 = figures.b10;
  view.b10_range = figures.b10_range;
  view.mean = finite_only(life::mean_life(fit.life));
  view.compared.push_back({"Weibull", fit.loglik, fit.aic()});
  if (const auto other = life::fit_lognormal(study.lives)) {
    view.compared.push_back({"lognormal", other->loglik, other->aic()});
  }
  if (const auto other = life::fit_exponential(likelihood)) {
    view.compared.push_back({"exponential", other->loglik, other->aic()});
  }
  for (int i = 1; i <= curve_points; ++i) {
    const double age = oldest * i / curve_points;
    const life::Bounds band = life::likely_reliability(likelihood, fit, age, shown_conf);
    view.curve.push_back({age, life::reliability(fit.life, age), band.lower, band.upper});
  }
  for (const life::Caution& caution : life::cautions_of(fit, life::likely_shape(likelihood, fit, shown_conf)))
    view.cautions.push_back({caution.saying, caution.says});
  return view;
}

// From a fifth of the shortest interval of interest to twice the longest, on a logarithmic scale.
std::vector<CostPointView> cost_curve(const PartStudy& study, const life::ReplacementCosts& costs, double reach) {
  double shortest = reach, longest = reach;
  for (const auto& one : {study.interval, study.choice ? study.choice->best : std::nullopt}) {
    if (one) shortest = std::min(shortest, *one), longest = std::max(longest, *one);
  }
  std::vector<CostPointView> curve;
  const double from = std::log(shortest / 5), to = std::log(longest * 2);
  for (int i = 0; i < cost_points; ++i) {
    const double interval = std::exp(from + (to - from) * i / (cost_points - 1));
    const life::CostRate rate = life::believed_cost_rate(study.believed, costs, interval);
    curve.push_back({interval, rate.expected, rate.range.lower, rate.range.upper});
  }
  return curve;
}

PartCostView cost_view(const PartCostSums& sums, const life::ReplacementCosts& costs) {
  return {.labour = sums.labour,
          .standing = sums.standing,
          .parts = sums.parts,
          .set_up_share = sums.set_up_share,
          .set_up = sums.set_up,
          .failed_standing = sums.failed_standing,
          .failed_damage = sums.failed_damage,
          .planned = costs.planned,
          .failed = costs.failed,
          .is_hours_assumed = sums.is_hours_assumed,
          .is_parts_unknown = sums.is_parts_unknown,
          .is_asked = costs.planned != sums.planned() || costs.failed != sums.failed()};
}

// The study as it is under other costs.
PartStudy under(const PartStudy& study, const life::ReplacementCosts& costs) {
  PartStudy other = study;
  if (study.choice && study.interval) {
    other.choice = life::choose_interval(study.believed, costs, *study.interval, life::oldest_age(study.lives));
  }
  return other;
}

void add_advice(PartStudyView& view, const PartStudy& study, const life::ReplacementCosts& costs,
                const PartQuery& query, double per_year) {
  if (study.believed.empty()) return;
  const life::BelievedAdvice advice = life::advise_age(study.believed, costs);
  view.run_to_failure = advice.run_to_failure;
  view.best_range = BestRangeView{finite_only(advice.best_5), finite_only(advice.best_50), finite_only(advice.best_95)};
  view.cost_curve = cost_curve(study, costs, life::oldest_age(study.lives));
  if (query.interval) view.asked = judged_move(study, costs, *query.interval, per_year);
}

}  // namespace

Result<void> check_interval(double interval) {
  if (interval >= 1e-6 && interval <= 1e9) return {};
  return refuse(ErrorCode::bad_input, "interval: {} must be from 1e-6 to 1e9", interval);
}

Result<life::ReplacementCosts> costs_asked(const PartStudy& study, const PartQuery& query) {
  life::ReplacementCosts costs = study.costs.replacement();
  costs.planned = query.planned.value_or(costs.planned);
  costs.failed = query.failed.value_or(costs.failed);
  if (!(costs.planned > 0 && costs.planned <= money_most)) {
    return refuse(ErrorCode::bad_input, "planned: {} must be above 0, at most 1e9", costs.planned);
  }
  if (!(costs.failed > 0 && costs.failed <= money_most)) {
    return refuse(ErrorCode::bad_input, "failed: {} must be above 0, at most 1e9", costs.failed);
  }
  return costs;
}

std::optional<MoveView> judged_move(const PartStudy& study, const life::ReplacementCosts& costs, double interval,
                                    double per_year) {
  if (study.believed.empty() || !study.interval) return std::nullopt;
  return move_view(life::judge_interval(study.believed, costs, *study.interval, interval), per_year);
}

Result<PartsView> show_parts(const OpenShop& shop, PartStudies& studies, UseForecasts& forecasts, Instant now) {
  PartsView view{now, shop.record().stopping.currency, {}};
  HW_TAKE(all, studies.all(now));
  for (const auto& study : all) {
    HW_TAKE(use, per_year(forecasts, *study, now));
    view.parts.push_back(part_view(*study, use));
  }
  const auto worth = [](const PartView& part) {
    return std::tuple{part.is_worth_saying, part.move ? std::abs(part.move->saving_per_year) : 0, part.failures};
  };
  std::stable_sort(view.parts.begin(), view.parts.end(),
                   [&](const PartView& a, const PartView& b) { return worth(a) > worth(b); });
  return view;
}

Result<PartStudyView> show_part(const OpenShop& shop, PartStudies& studies, UseForecasts& forecasts,
                                const PartName& name, const PartQuery& query, Instant now) {
  if (query.interval) HW_TRY(check_interval(*query.interval));
  HW_TAKE(kept, studies.of(name, now));
  HW_TAKE(costs, costs_asked(*kept, query));
  const auto other = query.planned || query.failed ? std::optional{under(*kept, costs)} : std::nullopt;
  const PartStudy& study = other ? *other : *kept;
  PartStudyView view;
  double use = 0;  // of all machines, in a year
  for (const PartPlace& place : study.seen.places) {
    HW_TAKE(one, per_year(forecasts, study, place.machine, now));
    view.places.push_back({place.machine, place.version, place.interval, one});
    use += one;
  }
  view.now = now;
  view.currency = shop.record().stopping.currency;
  view.part = part_view(study, use);
  view.costs = cost_view(study.costs, costs);
  add_lives(view, study);
  SurvivalView survival = survival_of(study.lives);
  view.survival_method = std::move(survival.method);
  view.survival = std::move(survival.points);
  if (study.fit) view.fit = fit_view(study, life::oldest_age(study.lives));
  add_advice(view, study, costs, query, use);
  return view;
}

}  // namespace hw::service
