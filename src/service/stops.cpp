#include <algorithm>

#include "src/service/open_stops.h"
#include "src/service/stop_entries.h"
#include "src/service/stop_follow_up.h"
#include "src/service/stop_plan.h"
#include "src/service/use_cases.h"

namespace hw::service {
namespace {

constexpr int past_stops_shown = 200;

Result<Entry> agreed_entry(const OpenShop& shop, const OpenMachine& machine, const StopEdit& edit, Instant now) {
  const auto lock = shop.look();
  HW_TRY(check_is_ahead(shop, edit.on, now));
  HW_TAKE(plan, plan_of(shop, machine, {edit.id, edit.on, edit.shift, edit.tasks, edit.note.value_or("")}));
  HW_TAKE(entry, new_entry(shop, machine, stop_agreed, edit, now));
  tell_agreed(entry, plan);
  return std::move(entry);
}

// A task that was retired since stays in the plan until somebody names other tasks.
Result<StopPlan> changed_plan(const OpenShop& shop, const Stop& stop, const StopChange& change, Instant now) {
  const auto lock = shop.look();
  HW_TAKE(machine, shop.find(stop.machine));
  if (change.on) HW_TRY(check_is_ahead(shop, *change.on, now));
  std::vector<PlannedTask> retired;
  std::vector<std::string> keys = change.tasks.value_or(std::vector<std::string>{});
  for (const PlannedTask& task : change.tasks ? std::vector<PlannedTask>{} : present_tasks(*machine, stop.plan)) {
    const auto record = find_task(*machine, task.task);
    if (record && !(*record)->retired_at)
      keys.push_back(task.task);
    else
      retired.push_back(task);
  }
  HW_TAKE(plan, plan_of(shop, *machine,
                        {stop.id, change.on.value_or(stop.plan.on), change.shift.value_or(stop.plan.shift),
                         std::move(keys), change.note.value_or(stop.plan.note)}));
  std::move(retired.begin(), retired.end(), std::back_inserter(plan.tasks));
  return std::move(plan);
}

void take_views(StopsView& view, const OpenShop& shop, const std::vector<Stop>& stops) {
  for (const Stop& stop : stops) view.stops.push_back(shown_stop(shop, stop));
}

std::optional<StopState> only_of(StopsShown shown) {
  if (shown == StopsShown::closed) return StopState::closed;
  if (shown == StopsShown::withdrawn) return StopState::withdrawn;
  return std::nullopt;
}

}  // namespace

Result<StopView> agree_stop(OpenShop& shop, std::string_view key, const StopEdit& edit, Instant now) {
  HW_TRY(check(edit));
  const auto turn = shop.edit();
  HW_TAKE(machine, shop.find(key));
  HW_TAKE(before, repeated(shop, edit.id, {stop_agreed, key}));
  if (!before) {
    HW_TAKE(entry, agreed_entry(shop, *machine, edit, now));
    HW_TRY(keep(shop.store(), entry));
  }
  return reload_and_show(shop, edit.id, key);
}

Result<StopView> change_stop(OpenShop& shop, std::string_view id, const StopChange& change, Instant now) {
  HW_TRY(check(change));
  const auto turn = shop.edit();
  HW_TAKE(stop, stored_stop(shop, id));
  HW_TAKE(is_again, was_told_before(shop, change.id, stop_changed, stop));
  if (is_again) return shown_stop(shop, stop);
  HW_TRY(check_is_as_seen(stop, change.version));
  HW_TAKE(plan, changed_plan(shop, stop, change, now));
  HW_TAKE(entry, entry_about(shop, stop, stop_changed, change, Told::seen, now));
  tell_changed(entry, stop, plan);
  HW_TRY(keep(shop.store(), entry));
  return reload_and_show(shop, id, stop.machine);
}

Result<StopView> withdraw_stop(OpenShop& shop, std::string_view id, const StopWithdraw& edit, Instant now) {
  HW_TRY(check(edit));
  const auto turn = shop.edit();
  HW_TAKE(stop, stored_stop(shop, id));
  HW_TAKE(is_again, was_told_before(shop, edit.id, stop_withdrawn, stop));
  if (is_again) return shown_stop(shop, stop);
  HW_TRY(check_is_agreed(stop));
  HW_TAKE(entry, entry_about(shop, stop, stop_withdrawn, edit, Told::unseen, now));
  tell_withdrawn(entry, stop, edit.why);
  HW_TRY(keep(shop.store(), entry));
  return reload_and_show(shop, id, stop.machine);
}

Result<StopsView> show_stops(const OpenShop& shop, const StopsQuery& query) {
  if (query.machine) HW_TRY(shop.find(*query.machine));
  StopsView view;
  if (query.shown == StopsShown::agreed || query.shown == StopsShown::all) {
    HW_TAKE(agreed, shop.store().agreed_stops(query.machine));
    std::sort(agreed.begin(), agreed.end(), begins_before);
    take_views(view, shop, agreed);
  }
  if (query.shown != StopsShown::agreed) {
    HW_TAKE(past, shop.store().past_stops(query.machine, only_of(query.shown), past_stops_shown));
    take_views(view, shop, past);
  }
  return view;
}

}  // namespace hw::service
