#include "src/terminal/life_survival.h"

#include <cmath>

#include <boost/describe/class.hpp>

#include "libs/formats/json.h"
#include "src/life/survival.h"
#include "src/life/turnbull.h"
#include "src/terminal/life_file.h"

namespace hw::terminal {
namespace {

struct StepReport {
  double age = 0, at_risk = 0, failures = 0, survival = 0, se = 0;
  formats::OrNull<double> lower, upper;
  double cumulative_hazard = 0;
};
BOOST_DESCRIBE_STRUCT(StepReport, (), (age, at_risk, failures, survival, se, lower, upper, cumulative_hazard))

struct KaplanMeierReport {
  std::string method = "Kaplan-Meier";
  std::string interval;
  double conf = 0.95, failures = 0, suspensions = 0;
  std::vector<StepReport> steps;
};
BOOST_DESCRIBE_STRUCT(KaplanMeierReport, (), (method, interval, conf, failures, suspensions, steps))

struct MassReport {
  double after = 0;
  formats::OrNull<double> by;  // null: beyond all looks
  double probability = 0;
};
BOOST_DESCRIBE_STRUCT(MassReport, (), (after, by, probability))

struct SurvivalReport {
  double age = 0, survival = 0;
};
BOOST_DESCRIBE_STRUCT(SurvivalReport, (), (age, survival))

struct TurnbullReport {
  std::string method = "Turnbull";
  double failures = 0, suspensions = 0, loglik = 0;
  int rounds = 0;
  std::vector<SurvivalReport> steps;
  std::vector<MassReport> masses;
};
BOOST_DESCRIBE_STRUCT(TurnbullReport, (), (method, failures, suspensions, loglik, rounds, steps, masses))

life::SurvivalScale scale_of(const std::string& word) {
  if (word == "plain") return life::SurvivalScale::plain;
  return word == "log" ? life::SurvivalScale::log : life::SurvivalScale::log_log;
}

std::string print_text(const KaplanMeierReport& report) {
  std::string text = fmt::format("Kaplan-Meier: {} failed, {} taken out good; {:g} % intervals ({})\n\n",
                                 report.failures, report.suspensions, 100 * report.conf, report.interval);
  text += fmt::format("{:>12}{:>10}{:>10}{:>12}{:>10}{:>10}\n", "age", "at risk", "failed", "still good", "from", "to");
  const auto bound = [](const auto& maybe) { return maybe ? fmt::format("{:.4f}", *maybe) : std::string("-"); };
  for (const StepReport& step : report.steps) {
    text += fmt::format("{:>12.7g}{:>10}{:>10}{:>12.4f}{:>10}{:>10}\n", step.age, step.at_risk, step.failures,
                        step.survival, bound(step.lower), bound(step.upper));
  }
  return text;
}

std::string print_text(const TurnbullReport& report) {
  std::string text = fmt::format("Turnbull: {} failed, {} taken out good\n\n{:>12}{:>12}\n", report.failures,
                                 report.suspensions, "age", "still good");
  for (const SurvivalReport& step : report.steps) text += fmt::format("{:>12.7g}{:>12.4f}\n", step.age, step.survival);
  return text;
}

Answer by_kaplan_meier(const LifeSurvivalCall& call, std::span<const life::Observed> lives) {
  HW_TAKE(steps, life::estimate_survival(lives, scale_of(call.scale), call.conf));
  const life::LifeCounts counts = life::count_lives(lives);
  KaplanMeierReport report{.interval = call.scale,
                           .conf = call.conf,
                           .failures = counts.failures,
                           .suspensions = counts.suspensions,
                           .steps = {}};
  for (const life::SurvivalStep& step : steps) {
    report.steps.push_back({step.age, step.at_risk, step.failures, step.survival, step.se, formats::or_null(step.lower),
                            formats::or_null(step.upper), step.cumulative_hazard});
  }
  return Said(call.is_json ? formats::print_json(report) + "\n" : print_text(report));
}

Answer by_turnbull(const LifeSurvivalCall& call, std::span<const life::Observed> lives) {
  HW_TAKE(turnbull, life::estimate_turnbull(lives));
  const life::LifeCounts counts = life::count_lives(lives);
  TurnbullReport report{.failures = counts.failures,
                        .suspensions = counts.suspensions,
                        .loglik = turnbull.loglik,
                        .rounds = turnbull.rounds,
                        .steps = {},
                        .masses = {}};
  for (const life::SurvivalAt& at : turnbull.survival) report.steps.push_back({at.age, at.survival});
  for (const life::Mass& mass : turnbull.masses) {
    formats::OrNull<double> by;
    if (std::isfinite(mass.by)) by.emplace(mass.by);
    report.masses.push_back({mass.after, by, mass.probability});
  }
  return Said(call.is_json ? formats::print_json(report) + "\n" : print_text(report));
}

}  // namespace

Answer survive_life(const LifeSurvivalCall& call) {
  HW_TAKE(lives, read_lives_file(call.file));
  for (const life::Observed& life : lives) {
    if (!life::is_exact(life) && !life::is_suspended(life)) return by_turnbull(call, lives);
  }
  return by_kaplan_meier(call, lives);
}

}  // namespace hw::terminal
