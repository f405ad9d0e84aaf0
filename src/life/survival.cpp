#include "src/life/survival.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "src/life/weibull_fit.h"

namespace hw::life {
namespace {

// What happens at one age.
struct Change {
  double entered = 0, failed = 0, ended = 0;
};

void set_bounds(SurvivalStep& step, SurvivalScale scale, double deviate) {
  const double s = step.survival;
  if (s <= 0) return;
  switch (scale) {
    case SurvivalScale::plain:
      step.lower = std::max(0.0, s - deviate * step.se);
      step.upper = std::min(1.0, s + deviate * step.se);
      return;
    case SurvivalScale::log:
      step.lower = s * std::exp(-deviate * step.se / s);
      step.upper = std::min(1.0, s * std::exp(deviate * step.se / s));
      return;
    case SurvivalScale::log_log: {
      const double half = deviate * step.se / (s * -std::log(s));
      step.lower = std::pow(s, std::exp(half));
      step.upper = std::pow(s, std::exp(-half));
    }
  }
}

}  // namespace

Result<std::vector<SurvivalStep>> estimate_survival(std::span<const Observed> lives, SurvivalScale scale, double conf) {
  std::map<double, Change> changes;
  for (const Observed& life : lives) {
    if (!is_exact(life) && !is_suspended(life)) {
      return refuse(ErrorCode::bad_input, "a life that failed between two looks has no known age");
    }
    changes[life.entry].entered += life.count;
    (is_exact(life) ? changes[life.lower].failed : changes[life.lower].ended) += life.count;
  }
  const double deviate = wald_deviate(conf);
  std::vector<SurvivalStep> steps;
  SurvivalStep now;
  double greenwood = 0;
  for (const auto& [age, change] : changes) {
    if (change.failed > 0) {
      now.age = age;
      now.failures = change.failed;
      now.survival *= (now.at_risk - change.failed) / now.at_risk;
      greenwood += change.failed / (now.at_risk * (now.at_risk - change.failed));
      now.se = now.survival > 0 ? now.survival * std::sqrt(greenwood) : 0;
      now.cumulative_hazard += change.failed / now.at_risk;
      now.lower = now.upper = std::nullopt;
      set_bounds(now, scale, deviate);
      steps.push_back(now);
    }
    now.at_risk += change.entered - change.failed - change.ended;
  }
  return steps;
}

}  // namespace hw::life
