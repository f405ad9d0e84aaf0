#include "src/proposal/proposed.h"

#include <algorithm>
#include <array>

#include "src/plan/draft_plan.h"
#include "src/plan/propose.h"
#include "src/proposal/services_ahead.h"

namespace hw::proposal {
namespace {

constexpr std::array rules{plan::Habit::due_day, plan::Habit::with_next_14_days, plan::Habit::monthly_service};
constexpr double gap_wanted = 0.005;

struct RulePlan {
  RuleCost cost;
  plan::StopPlan plan;
};

PlanSum sum_of(const plan::Instance& instance, const plan::StopPlan& plan) {
  return {plan::evaluate_plan(instance, plan).cost, static_cast<int>(plan.stops.size()),
          standing_hours(instance, plan)};
}

RulePlan plan_by_rule(const plan::Instance& instance, const plan::Model& model, plan::Habit rule) {
  const plan::Draft draft = plan::plan_by_habit(instance, model, rule);
  RulePlan made{{rule, 0, static_cast<int>(draft.tasks_without_place().size())}, plan::plan_of(instance, draft)};
  made.cost.cost = plan::evaluate_plan(instance, made.plan).cost.total();
  return made;
}

bool is_better(const RulePlan& a, const RulePlan& b) {
  if (a.cost.without_place != b.cost.without_place) return a.cost.without_place < b.cost.without_place;
  return a.cost.cost < b.cost.cost;
}

ServicesAhead planned_of(const ShopAhead& shop, What what) {
  return what == What::services ? services_ahead(shop) : ServicesAhead{shop, {}, {}};
}

plan::Proposal search_for(const plan::Instance& instance, const plan::Model& model, const ProposedOptions& options) {
  plan::ProposeOptions how;
  how.gap_target = gap_wanted;
  how.effort = options.effort_s;
  how.time_used = options.time_used;
  return plan::propose_stops(instance, model, how);
}

}  // namespace

Result<Proposed> propose(const ShopAhead& shop, const ProposedOptions& options) {
  const ServicesAhead planned = planned_of(shop, options.what);
  StopInstance made = make_instance(planned.shop, options.days, options.moving);
  made.services = planned.planned;
  HW_TRY(plan::check_instance(made.instance));
  Proposed out;
  out.later = planned.later;
  out.services = planned.planned;
  out.without_place = take_out_impossible(planned.shop, made.instance);
  const plan::Model model = plan::build_model(made.instance);
  std::vector<RulePlan> by_rule;
  for (const plan::Habit rule : rules) by_rule.push_back(plan_by_rule(made.instance, model, rule));
  const plan::Proposal found = search_for(made.instance, model, options);
  if (options.is_unwanted()) return Proposed{};
  const RulePlan& best = *std::min_element(by_rule.begin(), by_rule.end(), is_better);
  out.now = sum_of(made.instance, best.plan);
  out.then = sum_of(made.instance, found.plan);
  out.bound = found.bound;
  out.rule = best.cost.rule;
  for (const RulePlan& one : by_rule) out.rules.push_back(one.cost);
  out.differences = differences_of(shop, made, {best.plan, found.plan});
  for (WithoutPlace& one : explain_left(planned.shop, made.instance, model, found))
    out.without_place.push_back(std::move(one));
  out.plan = found.plan;
  return out;
}

}  // namespace hw::proposal
