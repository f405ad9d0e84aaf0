#include "src/service/open_stops.h"

#include <algorithm>

#include "libs/formats/enum_words.h"
#include "src/service/stop_plan.h"

namespace hw::service {
namespace {

StopTaskView stop_task_view(const PlannedTask& task, const Stop& stop) {
  StopTaskView view{.task = task.task,
                    .title = task.title,
                    .assembly = task.assembly,
                    .point = task.point,
                    .work = task.work,
                    .skill = task.skill,
                    .energy = task.energy,
                    .minutes = task.minutes,
                    .state = stop.state == StopState::closed ? "left undone" : "planned",
                    .as_found = {},
                    .done_by = {},
                    .done_at = {}};
  const auto done =
      std::find_if(stop.done.begin(), stop.done.end(), [&](const auto& one) { return one.task == task.task; });
  if (done == stop.done.end()) return view;
  view.state = "done";
  view.as_found = done->as_found;
  view.done_by = done->by;
  view.done_at = done->at;
  return view;
}

}  // namespace

Result<void> reload_stops(OpenShop& shop, std::string_view machine) {
  const auto open = shop.find(machine);
  if (!open) return {};
  HW_TAKE(stops, shop.store().agreed_stops(std::string{machine}));
  std::sort(stops.begin(), stops.end(), begins_before);
  const auto lock = shop.change();
  (*open)->stops = std::move(stops);
  ++(*open)->tasks_version;
  return {};
}

StopView view_of(const OpenShop& shop, const Stop& stop) {
  const auto machine = shop.find(stop.machine);
  const bool is_agreed = machine && stop.state == StopState::agreed;
  const auto tasks = is_agreed ? present_tasks(**machine, stop.plan) : stop.plan.tasks;
  StopView view{.id = stop.id,
                .machine = stop.machine,
                .on = stop.plan.on,
                .shift = stop.plan.shift,
                .begins_at = stop.plan.begins_at,
                .ends_at = stop.plan.ends_at,
                .energy = energy_of(tasks),
                .minutes = standing_minutes(shop.record().stopping, tasks),
                .state = formats::print_word(stop.state),
                .version = stop.version,
                .tasks = {},
                .note = stop.plan.note,
                .by = stop.by,
                .at = stop.at,
                .closed = {},
                .withdrawn = {}};
  for (const PlannedTask& task : tasks) view.tasks.push_back(stop_task_view(task, stop));
  if (const auto& closed = stop.closed) {
    view.closed = StopClosedView{closed->by, closed->at, closed->began_at, closed->ended_at, closed->note};
  }
  if (stop.withdrawn) view.withdrawn = StopWithdrawnView{stop.withdrawn->by, stop.withdrawn->at, stop.withdrawn->why};
  return view;
}

std::optional<NextStopView> next_stop(const OpenShop& shop, const OpenMachine& machine, Instant now) {
  for (const Stop& stop : machine.stops) {
    if (stop.plan.ends_at <= now) continue;
    return NextStopView{stop.id, stop.plan.on, stop.plan.shift, energy_of(present_tasks(machine, stop.plan)),
                        shop.kit_states().of(shop, stop.id, shop.calendar().zone.date_of(now))};
  }
  return std::nullopt;
}

}  // namespace hw::service
