#include "src/service/stop_steps.h"

#include <algorithm>
#include <map>
#include <memory>

#include "libs/values/sha256.h"
#include "src/service/entry_making.h"
#include "src/service/make_views.h"
#include "src/service/open_stops.h"
#include "src/service/stop_entries.h"
#include "src/service/stop_follow_up.h"
#include "src/service/stop_plan.h"

namespace hw::service {
namespace {

// The machines as they will be: what the steps touch is taken away first, so that tasks can go from stop to stop.
class Outlook {
 public:
  Outlook(const OpenShop& shop, const std::vector<StopStep>& steps) : shop_(shop), steps_(steps) {}

  Result<OpenMachine*> machine(const std::string& key) {
    const auto there = machines_.find(key);
    if (there != machines_.end()) return there->second.get();
    const auto lock = shop_.look();
    HW_TAKE(open, shop_.find(key));
    auto copy = std::make_unique<OpenMachine>();
    copy->record = open->record;
    for (const Stop& stop : open->stops) {
      const auto touches = [&](const StopStep& step) { return step.stop == stop.id; };
      if (std::none_of(steps_.begin(), steps_.end(), touches)) copy->stops.push_back(stop);
    }
    return (machines_[key] = std::move(copy)).get();
  }

  // The plan of the step's stop, which from then on has its tasks.
  Result<StopPlan> plan(const StopStep& step, const std::string& stop, Instant now) {
    HW_TRY(check_is_ahead(shop_, step.on, now));
    HW_TAKE(machine, this->machine(step.machine));
    const auto lock = shop_.look();
    HW_TAKE(plan, plan_of(shop_, *machine, {stop, step.on, step.shift, step.tasks, step.note}));
    Stop planned;
    planned.id = stop;
    planned.machine = step.machine;
    planned.plan = plan;
    machine->stops.push_back(std::move(planned));
    return std::move(plan);
  }

 private:
  const OpenShop& shop_;
  const std::vector<StopStep>& steps_;
  std::map<std::string, std::unique_ptr<OpenMachine>> machines_;
};

Signature signature_of(const StopStep& step, const Signature& signature) {
  Signature own = signature;
  own.id = step.entry;
  return own;
}

Result<Entry> agreed_by(const OpenShop& shop, Outlook& outlook, const StopStep& step, const Signature& signature,
                        Instant now) {
  HW_TAKE(plan, outlook.plan(step, step.entry, now));
  const auto lock = shop.look();
  HW_TAKE(machine, shop.find(step.machine));
  HW_TAKE(entry, new_entry(shop, *machine, stop_agreed, signature, now));
  tell_agreed(entry, plan);
  return std::move(entry);
}

Result<Entry> entry_of(const OpenShop& shop, Outlook& outlook, const StopStep& step, const Signature& by_whom,
                       Instant now) {
  const Signature signature = signature_of(step, by_whom);
  if (step.kind == StepKind::agree) return agreed_by(shop, outlook, step, signature, now);
  HW_TAKE(stop, stored_stop(shop, step.stop));
  HW_TRY(check_is_as_seen(stop, step.version));
  const bool is_change = step.kind == StepKind::change;
  HW_TAKE(entry, entry_about(shop, stop, is_change ? stop_changed : stop_withdrawn, signature, Told::seen, now));
  if (is_change) {
    HW_TAKE(plan, outlook.plan(step, step.stop, now));
    tell_changed(entry, stop, plan);
  } else {
    tell_withdrawn(entry, stop, step.note);
  }
  return std::move(entry);
}

Result<void> keep_all(Store& store, std::vector<Entry>& entries) {
  HW_TAKE(writing, store.begin());
  for (Entry& entry : entries) HW_TRY(writing->add_entry(entry));
  return writing->commit();
}

Result<AcceptedView> view_of_all(const OpenShop& shop, const std::vector<Entry>& entries) {
  AcceptedView view;
  for (const Entry& entry : entries) {
    HW_TAKE(stop, stored_stop(shop, entry.body.stop.value_or("")));
    view.stops.push_back(shown_stop(shop, stop));
    view.entries.push_back(view_of(entry));
  }
  return view;
}

}  // namespace

Result<AcceptedView> take_steps(OpenShop& shop, std::vector<StopStep> steps, const Signature& signature, Instant now) {
  const auto turn = shop.edit();
  std::stable_sort(steps.begin(), steps.end(), [](const auto& a, const auto& b) { return a.kind < b.kind; });
  Outlook outlook(shop, steps);
  std::vector<Entry> entries;
  for (const StopStep& step : steps) {
    HW_TAKE(entry, entry_of(shop, outlook, step, signature, now));
    entries.push_back(std::move(entry));
  }
  HW_TRY(keep_all(shop.store(), entries));
  for (const StopStep& step : steps) HW_TRY(reload_stops(shop, step.machine));
  return view_of_all(shop, entries);
}

Result<std::optional<AcceptedView>> taken_before(const OpenShop& shop, const std::vector<std::string>& ids) {
  std::vector<Entry> entries;
  for (const std::string& id : ids) {
    HW_TAKE(entry, shop.store().entry(id));
    if (entry) entries.push_back(*std::move(entry));
  }
  if (entries.empty()) return std::optional<AcceptedView>{};
  if (entries.size() != ids.size()) {
    return refuse(ErrorCode::conflict, id_used, "id: with this id other differences were accepted; an id is used once");
  }
  HW_TAKE(view, view_of_all(shop, entries));
  return std::optional{std::move(view)};
}

std::string id_within(std::string_view id, std::string_view what) {
  constexpr std::size_t time_characters = 13;  // "01941f29-7c00"
  const std::string hash = print_hex(sha256(fmt::format("{}:{}", id, what)));
  return fmt::format("{}-7{}-8{}-{}", id.substr(0, time_characters), hash.substr(0, 3), hash.substr(3, 3),
                     hash.substr(6, 12));
}

}  // namespace hw::service
