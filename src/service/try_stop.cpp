// What a stop would cost on another day: reading only.

#include "src/proposal/estimate.h"
#include "src/service/look_ahead.h"
#include "src/service/proposals.h"

namespace hw::service {
namespace {

std::string name_of(const OpenShop& shop, const std::string& key) {
  const auto machine = shop.find(key);
  return machine ? (*machine)->record.machine.name : key;
}

std::optional<TriedVisitView> visit_view(const OpenShop& shop, const proposal::StopEstimate& estimate) {
  for (const plan::CrewEstimate& crew : estimate.figures.crews) {
    if (!crew.travels) continue;
    TriedVisitView view{crew.travel_cost, crew.travel_hours, {}};
    for (const std::string& key : estimate.visited_too) view.machines.push_back(name_of(shop, key));
    return view;
  }
  return std::nullopt;
}

StopEstimateView estimate_view(const proposal::StopEstimate& estimate, const std::string& currency) {
  const plan::StopEstimate& figures = estimate.figures;
  StopEstimateView view{.currency = currency,
                        .cost = {figures.set_up, figures.standing, figures.premium, figures.overtime, figures.timing(),
                                 figures.travel, figures.total()},
                        .early_loss = 0,
                        .late_loss = 0,
                        .standing_hours = figures.standing_hours,
                        .hours_over_shift = figures.hours_over_shift,
                        .tasks = {},
                        .people = {},
                        .parts = {},
                        .visit = {},
                        .troubles = {}};
  for (const auto& one : figures.tasks) {
    view.early_loss += one.early_loss;
    view.late_loss += one.late_loss;
    view.tasks.push_back(
        {one.task, one.chance_due_before, one.early_days, one.late_days, one.early_loss + one.late_loss});
  }
  for (const auto& one : figures.crews) {
    view.people.push_back({one.crew, one.wants_hours, one.has_hours, one.overtime_hours});
  }
  for (const auto& one : estimate.parts) view.parts.push_back({one.name, one.quantity, one.unit});
  for (const auto& one : estimate.troubles) view.troubles.push_back({one.text, one.saying});
  return view;
}

}  // namespace

Result<StopEstimateView> try_stop(const OpenShop& shop, UseForecasts& forecasts, const StopTryView& wanted,
                                  Instant now) {
  HW_TAKE(ahead, look_ahead(shop, forecasts, wanted.machine, now));
  HW_TAKE(estimate, estimate_stop(ahead, {wanted.machine, wanted.on, wanted.shift, wanted.tasks, wanted.stop}));
  const auto looking = shop.look();
  StopEstimateView view = estimate_view(estimate, ahead.stopping.currency);
  view.visit = visit_view(shop, estimate);
  return view;
}

}  // namespace hw::service
