#include "libs/formats/json.h"
#include "src/service/proposal_work.h"

namespace hw::service {
namespace {

PlanMoneyView money_view(const plan::PlanCost& cost) {
  return {cost.stops, cost.lost_production, cost.labour_premium, cost.overtime, cost.timing,
          cost.end,   cost.moving,          cost.travel,         cost.total()};
}

PlanSumView sum_view(const proposal::PlanSum& sum) { return {money_view(sum.cost), sum.stops, sum.standing_h}; }

// As `hourwright plan` calls them.
std::string rule_word(plan::Habit rule) {
  switch (rule) {
    case plan::Habit::due_day:
      return "due day";
    case plan::Habit::with_next_14_days:
      return "with next 14 days";
    case plan::Habit::monthly_service:
      return "monthly service";
  }
  return "";
}

std::string kind_word(proposal::DifferenceKind kind) {
  switch (kind) {
    case proposal::DifferenceKind::made:
      return "new";
    case proposal::DifferenceKind::moved:
      return "moved";
    case proposal::DifferenceKind::changed:
      return "changed";
    case proposal::DifferenceKind::dropped:
      return "dropped";
  }
  return "";
}

std::string energy_word(plan::EnergyState state) {
  return std::string{word_of(state == plan::EnergyState::locked ? catalogue::EnergyState::isolated
                                                                : catalogue::EnergyState::powered_at_rest)};
}

DifferenceView difference_view(const proposal::Difference& one, bool is_accepted) {
  DifferenceView view{.key = one.key,
                      .kind = kind_word(one.kind),
                      .machine = one.machine,
                      .stop = {},
                      .from = {},
                      .on = {},
                      .shift = {},
                      .energy = energy_word(one.state),
                      .tasks = one.tasks,
                      .service = one.service,
                      .minutes = one.minutes,
                      .saving = one.saving,
                      .reasons = {},
                      .accepted = is_accepted};
  if (!one.stop.empty()) view.stop = one.stop;
  if (one.from) view.from = StopPlaceView{one.from->on, one.from->shift};
  if (one.to) {
    view.on = one.to->on;
    view.shift = one.to->shift;
  }
  for (const auto& reason : one.reasons) view.reasons.push_back({reason.text, reason.saying});
  return view;
}

// A rule that leaves tasks without a place is cheaper for that alone.
bool is_comparable(const proposal::RuleCost& one, const proposal::Proposed& proposed) {
  return one.without_place == 0 || one.rule == proposed.rule;
}

void add_rules(ProposalView& view, const proposal::Proposed& proposed) {
  view.rules.emplace();
  for (const proposal::RuleCost& one : proposed.rules) {
    if (!is_comparable(one, proposed)) continue;
    const double saving = one.cost > 0 ? 1 - proposed.then.cost.total() / one.cost : 0;
    view.rules->push_back({rule_word(one.rule), one.cost, saving});
  }
  view.rule = rule_word(proposed.rule);
}

WithoutPlaceView without_place_view(const proposal::WithoutPlace& one,
                                    const std::vector<proposal::PlannedService>& services) {
  WithoutPlaceView view{one.machine, {}, {}, one.says.text, one.says.saying, {}};
  for (const auto& way : one.ways) view.ways.push_back({way.text, way.saying});
  for (const auto& service : services) {
    if (service.machine == one.machine && service.id == one.task) view.service = service.service;
  }
  if (!view.service) view.task = one.task;
  return view;
}

void add_proposed(ProposalView& view, const ProposalWork& work) {
  const proposal::Proposed& proposed = *work.proposed;
  view.currency = work.currency;
  view.cost = money_view(proposed.then.cost);
  view.bound = proposed.bound;
  view.gap = proposed.gap();
  view.now = sum_view(proposed.now);
  view.then = sum_view(proposed.then);
  view.saving = proposed.saving();
  add_rules(view, proposed);
  view.differences.emplace();
  for (const auto& one : proposed.differences) {
    view.differences->push_back(difference_view(one, work.accepted.count(one.key) > 0));
  }
  view.without_place.emplace();
  for (const auto& one : proposed.without_place) {
    view.without_place->push_back(without_place_view(one, proposed.services));
  }
  if (work.what != proposal::What::services) return;
  view.later.emplace();
  for (const auto& one : proposed.later) view.later->push_back({one.machine, one.service, one.due_on});
}

}  // namespace

ProposalView view_of(const ProposalWork& work) {
  ProposalView view{.id = work.id,
                    .by = work.by,
                    .asked_at = work.asked_at,
                    .state = formats::print_word(work.state),
                    .share = work.share,
                    .seconds = work.seconds,
                    .weeks = work.weeks,
                    .what = work.what == proposal::What::services ? "services" : "all",
                    .currency = {},
                    .cost = {},
                    .bound = {},
                    .gap = {},
                    .now = {},
                    .then = {},
                    .saving = {},
                    .rule = {},
                    .rules = {},
                    .differences = {},
                    .without_place = {},
                    .later = {},
                    .says = {}};
  if (work.is_cancelled && work.state == ProposalState::running)
    view.state = formats::print_word(ProposalState::cancelled);
  if (!work.says.empty()) view.says = work.says;
  if (work.proposed) add_proposed(view, work);
  return view;
}

}  // namespace hw::service
