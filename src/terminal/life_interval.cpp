#include "src/terminal/life_interval.h"

#include <cmath>

#include <boost/describe/class.hpp>

#include "libs/formats/json.h"
#include "src/life/believed_lives.h"
#include "src/life/block_replacement.h"
#include "src/life/inspection.h"
#include "src/terminal/life_file.h"

namespace hw::terminal {
namespace {

using Maybe = formats::OrNull<double>;  // an interval: null is run to failure

struct MoveReport {
  double from = 0;
  double cost_rate = 0;  // expected at `from`
  double saving = 0;     // expected cost rate saved by moving to the averaged interval
  std::array<double, 2> saving_range{};
  double chance_saves = 0;
};
BOOST_DESCRIBE_STRUCT(MoveReport, (), (from, cost_rate, saving, saving_range, chance_saves))

struct AveragedReport {
  Maybe interval;
  double cost_rate = 0, cost_rate_run_to_failure = 0, saving = 0;
  std::array<Maybe, 2> best_range;  // 5 to 95 % of belief
  std::optional<MoveReport> move;
};
BOOST_DESCRIBE_STRUCT(AveragedReport, (), (interval, cost_rate, cost_rate_run_to_failure, saving, best_range, move))

struct IntervalReport {
  Maybe interval;
  double cost_rate = 0, cost_rate_run_to_failure = 0, saving = 0;
  std::string policy;
  double shape = 0, scale = 0;
  std::optional<AveragedReport> averaged;
};
BOOST_DESCRIBE_STRUCT(IntervalReport, (),
                      (interval, cost_rate, cost_rate_run_to_failure, saving, policy, shape, scale, averaged))

Maybe finite_interval(double age) {
  Maybe maybe;
  if (std::isfinite(age)) maybe.emplace(age);
  return maybe;
}
Maybe finite_interval(const std::optional<double>& age) { return finite_interval(age.value_or(life::never)); }

std::string print_interval(const Maybe& interval) {
  return interval ? fmt::format("every {:.7g}", *interval) : "run to failure";
}

Result<IntervalReport> advise_known(const LifeIntervalCall& call, const life::Weibull& part) {
  if (!std::isfinite(life::mean_life(part))) {
    return refuse(ErrorCode::bad_input, "shape {:.4g}: the mean life would be beyond all numbers", part.shape);
  }
  if (call.policy == "block" && part.shape > 50) {
    return refuse(ErrorCode::bad_input, "shape {:.4g}: block replacement is worked out for shapes up to 50",
                  part.shape);
  }
  IntervalReport report{};
  report.policy = call.policy;
  report.shape = part.shape;
  report.scale = part.scale;
  const life::ReplacementCosts costs{call.planned, call.failed};
  const auto fill = [&report](const auto& advice) {
    report.interval = finite_interval(advice.interval);
    report.cost_rate = advice.cost_rate;
    report.cost_rate_run_to_failure = advice.run_to_failure;
    report.saving = advice.saving;
  };
  if (call.policy == "block") {
    fill(life::advise_block(part, costs));
  } else {
    fill(life::advise_age(part, costs));
  }
  return report;
}

AveragedReport advise_averaged(const LifeIntervalCall& call, std::span<const life::Believed> believed) {
  const life::ReplacementCosts costs{call.planned, call.failed};
  const life::BelievedAdvice advice = life::advise_age(believed, costs);
  AveragedReport report{finite_interval(advice.interval),
                        advice.cost_rate,
                        advice.run_to_failure,
                        advice.saving,
                        {finite_interval(advice.best_5), finite_interval(advice.best_95)},
                        {}};
  if (!call.now) return report;
  const life::Move move = life::judge_move(believed, costs, *call.now, advice.interval.value_or(life::never));
  report.move = MoveReport{*call.now,
                           life::expected_cost_rate(believed, costs, *call.now),
                           move.saving,
                           {move.saving_5, move.saving_95},
                           move.chance};
  return report;
}

std::string print_text(const AveragedReport& report) {
  std::string text = fmt::format(
      "\nover all lives that the data allow\n  {}: {:.6g} per unit of use, expected; run to failure {:.6g}; saves "
      "{:.1f} %\n",
      print_interval(report.interval), report.cost_rate, report.cost_rate_run_to_failure, 100 * report.saving);
  text += fmt::format("  90 % range of the best interval: {} to {}\n", print_interval(report.best_range[0]),
                      print_interval(report.best_range[1]));
  if (!report.move) return text;
  return text +
         fmt::format(
             "  moving there from {:.7g} ({:.6g}): saves {:.6g} per unit of use, expected (90 %: {:.6g} to {:.6g}); "
             "the chance that it saves is {:.0f} %\n",
             report.move->from, report.move->cost_rate, report.move->saving, report.move->saving_range[0],
             report.move->saving_range[1], 100 * report.move->chance_saves);
}

std::string print_text(const IntervalReport& report) {
  std::string text =
      fmt::format("shape {:.6g}, scale {:.6g}\n{} replacement, {}: {:.6g} per unit of use\n", report.shape,
                  report.scale, report.policy, print_interval(report.interval), report.cost_rate);
  text += fmt::format("run to failure: {:.6g} per unit of use; the interval saves {:.1f} % of it\n",
                      report.cost_rate_run_to_failure, 100 * report.saving);
  return report.averaged ? text + print_text(*report.averaged) : text;
}

struct OverhaulReport {
  Maybe interval;
  Maybe cost_rate;
  double repairs = 0;  // expected in one interval
  std::string policy = "overhaul";
};
BOOST_DESCRIBE_STRUCT(OverhaulReport, (), (interval, cost_rate, repairs, policy))

Answer advise_overhaul(const LifeIntervalCall& call) {
  const life::OverhaulAdvice advice = life::advise_overhaul({*call.shape, *call.scale}, {call.planned, call.failed});
  OverhaulReport report{.interval = finite_interval(advice.interval), .cost_rate = {}, .repairs = advice.repairs};
  if (advice.interval) report.cost_rate.emplace(advice.cost_rate);
  if (call.is_json) return Said(formats::print_json(report) + "\n");
  if (!advice.interval) return "no overhaul: failures do not come more often with age\n";
  return Said(fmt::format("overhaul every {:.7g}: {:.6g} per unit of use, with {:.4g} repairs in between\n",
                          *advice.interval, advice.cost_rate, advice.repairs));
}

Answer advise_from_lives(const LifeIntervalCall& call) {
  HW_TAKE(lives, read_lives_file(call.file));
  const life::WeibullLikelihood likelihood(lives);
  HW_TAKE(fit, life::fit_weibull(likelihood));
  HW_TAKE(report, advise_known(call, fit.life));
  if (call.policy == "age") {
    HW_TAKE(believed, life::believed_lives(likelihood, fit));
    report.averaged = advise_averaged(call, believed);
  }
  return Said(call.is_json ? formats::print_json(report) + "\n" : print_text(report));
}

}  // namespace

Answer advise_life(const LifeIntervalCall& call) {
  const bool is_known = call.shape && call.scale;
  if (call.file.empty() != is_known || call.shape.has_value() != call.scale.has_value()) {
    return refuse(ErrorCode::wrong_usage, "life interval: either a file with lives, or --shape and --scale");
  }
  if (call.now && (is_known || call.policy != "age")) {
    return refuse(ErrorCode::wrong_usage,
                  "life interval: --now is weighed by lives, by age: a file with lives is needed");
  }
  if (call.policy == "overhaul" && !is_known) {
    return refuse(ErrorCode::wrong_usage, "life interval: an overhaul needs --shape and --scale");
  }
  if (!is_known) return advise_from_lives(call);
  if (call.policy == "overhaul") return advise_overhaul(call);
  HW_TAKE(report, advise_known(call, {*call.shape, *call.scale}));
  return Said(call.is_json ? formats::print_json(report) + "\n" : print_text(report));
}

}  // namespace hw::terminal
