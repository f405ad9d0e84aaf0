#include <algorithm>

#include "src/catalogue/isolation_steps.h"
#include "src/service/kind_services.h"
#include "src/service/make_views.h"
#include "src/service/open_findings.h"
#include "src/service/open_stops.h"
#include "src/service/stop_follow_up.h"
#include "src/service/stop_kits.h"
#include "src/service/stop_phases.h"
#include "src/service/stop_plan.h"
#include "src/service/use_cases.h"

namespace hw::service {
namespace {

CardMachineView card_machine(const catalogue::Machine& machine) {
  return {machine.key, machine.name, machine.kind, machine.cell};
}

// The whole tasks in the order of work.
Result<std::vector<TaskView>> card_tasks(const OpenShop& shop, const OpenMachine& machine, const CardOrderView& order,
                                         Instant now) {
  const CounterTotals totals = totals_of(machine, now);
  std::vector<TaskView> tasks;
  for (const CardPhaseView& phase : order.phases) {
    for (const CardWorkView& work : phase.works) {
      HW_TAKE(record, find_task(machine, work.task));
      tasks.push_back(view_of(shop, machine, *record, totals, now));
    }
  }
  return tasks;
}

std::vector<KitPartView> kit_views(const Stores& stores, const std::vector<NeededLine>& lines) {
  std::vector<KitPartView> kit;
  for (const NeededLine& line : lines) {
    const PartRecord* part = line.part ? stores.part(*line.part) : nullptr;
    kit.push_back({line.name, line.quantity, line.unit, line.tasks, line.part, part ? part->part.place : std::nullopt});
  }
  return kit;
}

std::vector<IsolationStepView> step_views(std::span<const catalogue::IsolationStep> steps) {
  std::vector<IsolationStepView> views;
  for (const auto& step : steps) {
    views.push_back({std::string{step.code}, std::string{step.text}, std::string{step.text_de}});
  }
  return views;
}

// What is known of the machine's kind, and the steps and cautions that hold for all.
IsolationView isolation_view(const OpenShop& shop, const std::string& kind) {
  IsolationView view;
  for (const KindRecord& record : shop.record().kinds) {
    if (record.key != kind) continue;
    const IsolationText text = text_of(record.isolation);
    view.points = text.points;
    view.stored = text.stored;
  }
  view.steps = step_views(catalogue::isolation_steps());
  view.way_back = step_views(catalogue::way_back_steps());
  for (const auto& caution : catalogue::isolation_cautions()) {
    view.cautions.push_back({std::string{caution.text}, std::string{caution.text_de}});
  }
  return view;
}

std::vector<FindingView> findings_settled_by(const OpenMachine& machine, const Stop& stop) {
  std::vector<FindingView> findings;
  for (const Finding& finding : machine.findings) {
    if (finding.task && has_task(stop, *finding.task)) findings.push_back(view_of(finding));
  }
  return findings;
}

}  // namespace

Result<StopCardView> show_stop(const OpenShop& shop, std::string_view id, Instant now) {
  HW_TAKE(stop, stored_stop(shop, id));
  const auto lock = shop.look();
  HW_TAKE(machine, shop.find(stop.machine));
  const auto planned = stop.state == StopState::agreed ? present_tasks(*machine, stop.plan) : stop.plan.tasks;
  HW_TAKE(ordered, order_works(*machine, planned));
  StopCardView view;
  view.stop = view_of(shop, stop);
  view.machine = card_machine(machine->record.machine);
  view.order = order_view(ordered, planned, shop.record().stopping);
  HW_TAKE(tasks, card_tasks(shop, *machine, view.order, now));
  view.tasks = std::move(tasks);
  view.kit = kit_views(shop.stores(), kit_of(shop, *machine, stop));
  view.isolation = isolation_view(shop, view.machine.kind);
  view.findings = findings_settled_by(*machine, stop);
  if (const auto* service = service_in(shop, machine->record, planned)) {
    view.service = CardServiceView{service->key, service->title, service->title_de};
  }
  if (stop.state == StopState::agreed && !shop.stores().is_empty()) {
    for (const StopKit& kit : stop_kits(shop, shop.calendar().zone.date_of(now)).kits) {
      if (kit.stop->id == id) view.readiness = readiness_view(shop, kit);
    }
  }
  return view;
}

}  // namespace hw::service
