#pragma once
// A proposal of stops beside what is agreed: what each costs, how good the proposal is proven to be, and how they
// differ.
//
// `now` is what would come of it otherwise: agreed stops as they are, and every other task by the best of the rules
// that people use (src/plan/habits.h) on the same instance and within the same limits.

#include <functional>
#include <string>
#include <vector>

#include "src/plan/habits.h"
#include "src/plan/stop_plan.h"
#include "src/proposal/differences.h"
#include "src/proposal/no_place.h"

namespace hw::proposal {

// All that falls due; or the services of the machines' kinds, spread over the year (services_ahead.h).
enum class What { all, services };

struct ProposedOptions {
  What what = What::all;
  int days = 84;
  Moving moving = Moving::fixed;
  double effort_s = 20;                                    // planned work, in seconds of a usual computer
  std::function<double()> time_used = [] { return 0.0; };  // share of the caller's time, 1: over
  std::function<bool()> is_unwanted = [] {
    return false;
  };  // nobody waits for it any more: what comes may be unfinished
};

// A plan's costs, and what it does to the machines.
struct PlanSum {
  plan::PlanCost cost;
  int stops = 0;
  double standing_h = 0;
};

struct RuleCost {
  plan::Habit rule = plan::Habit::due_day;
  double cost = 0;
  int without_place = 0;  // tasks for which the rule found no place; their cost is not in it
};

struct Proposed {
  PlanSum now;
  PlanSum then;
  double bound = 0;  // no plan costs less
  plan::Habit rule = plan::Habit::due_day;
  std::vector<RuleCost> rules;
  std::vector<Difference> differences;
  std::vector<WithoutPlace> without_place;  // not in the costs; what cannot be placed at all is not in the bound either
  std::vector<LaterService> later;          // services that fall due after the year
  std::vector<PlannedService> services;     // those of the plan
  plan::StopPlan plan;

  double saving() const { return now.cost.total() - then.cost.total(); }
  double gap() const { return then.cost.total() > 0 ? (then.cost.total() - bound) / then.cost.total() : 0; }
};

// Errors: bad_input where the instance is none that can be planned; it names the field.
Result<Proposed> propose(const ShopAhead& shop, const ProposedOptions& options);

}  // namespace hw::proposal
