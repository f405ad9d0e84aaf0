#include <algorithm>
#include <cmath>

#include "src/service/entry_making.h"
#include "src/service/lives.h"
#include "src/service/make_views.h"
#include "src/service/stop_steps.h"

namespace hw::service {
namespace {

using catalogue::CounterTrigger;
using catalogue::Demand;

Result<void> check(const IntervalEdit& edit) {
  HW_TRY(check_signature(edit.id, edit.by));
  HW_TRY(check_text("why", edit.why));
  if (edit.despite) HW_TRY(check_text("despite", *edit.despite));
  HW_TRY(check_interval(edit.interval));
  if (edit.places.empty()) return refuse(ErrorCode::bad_input, "places: name one machine at least");
  for (auto one = edit.places.begin(); one != edit.places.end(); ++one) {
    const auto is_same = [&](const SeenPlace& other) { return other.machine == one->machine; };
    if (std::any_of(edit.places.begin(), one, is_same)) {
      return refuse(ErrorCode::bad_input, "places: \"{}\" stands twice", one->machine.substr(0, 60));
    }
  }
  return {};
}

CounterTrigger* trigger_on(catalogue::Task& task, const std::string& counter) {
  for (auto& trigger : task.triggers) {
    auto* on = std::get_if<CounterTrigger>(&trigger);
    if (on && on->counter == counter) return on;
  }
  return nullptr;
}

// A heads-up of a tenth of the interval stays one where the interval becomes shorter.
void set_interval(CounterTrigger& trigger, double interval) {
  const double ratio = interval / trigger.interval;
  trigger.interval = interval;
  if (ratio >= 1) return;
  trigger.heads_up *= ratio;
  trigger.tolerance *= ratio;
}

Result<void> check_demand(const catalogue::Task& task, double from, const IntervalEdit& edit) {
  const Demand demand = demand_of(task);
  if (demand == Demand::nobody || edit.interval <= from || edit.despite) return {};
  return refuse(ErrorCode::bad_input, Saying{"interval-demanded", {{"demand", std::string{word_of(demand)}}}, {}},
                "despite: the task is demanded by {}; say who allowed a longer interval, and why", word_of(demand));
}

// What the decision rested on, the same in the entry of each machine.
IntervalMoved evidence(const PartStudy& study, const life::ReplacementCosts& costs,
                       const std::optional<MoveView>& judged, const IntervalEdit& edit) {
  IntervalMoved moved;
  moved.counter = *study.seen.counter;
  moved.unit = study.seen.unit;
  moved.to = edit.interval;
  moved.lives = static_cast<int>(study.lives.size());
  moved.failures = static_cast<int>(life::count_lives(study.lives).failures);
  moved.planned = costs.planned;
  moved.failed = costs.failed;
  if (study.fit) {
    moved.shape = study.fit->life.shape;
    moved.scale = study.fit->life.scale;
  }
  if (judged) {
    moved.saving_per_year = judged->saving_per_year;
    moved.saving_5 = judged->saving_5;
    moved.saving_95 = judged->saving_95;
    moved.chance = judged->chance;
  }
  moved.despite = edit.despite;
  return moved;
}

void tell(Entry& entry, const TaskRecord& record, const IntervalMoved& moved, const std::string& why) {
  entry.task = record.task.key;
  entry.body.title = record.task.title;
  entry.body.version = record.version;
  entry.body.why = why;
  entry.body.interval = moved;
  entry.says =
      fmt::format("{}: interval moved from {:g} to {:g} {} ({}), after {} failures in {} lives: {}", record.task.title,
                  moved.from, moved.to, moved.unit, moved.counter, moved.failures, moved.lives, why);
}

struct Step {
  OpenMachine* machine = nullptr;
  TaskRecord record;
  Entry entry;
};

Result<Step> step_at(const OpenShop& shop, const PartName& name, const SeenPlace& place, const IntervalEdit& edit,
                     IntervalMoved moved, Instant now) {
  HW_TAKE(machine, shop.find(place.machine));
  const auto lock = shop.look();
  HW_TAKE(present, find_task(*machine, name.task));
  HW_TRY(check_is_not_retired(shop, *present));
  if (present->version != place.version) {
    return refuse(ErrorCode::conflict, Saying{"task-changed", {{"title", present->task.title}}},
                  "\"{}\" of {} was changed meanwhile: it is at version {}, not {}; look again", present->task.title,
                  place.machine, present->version, place.version);
  }
  Step step{machine, *present, {}};
  CounterTrigger* trigger = trigger_on(step.record.task, moved.counter);
  if (machine->record.machine.kind != name.kind || !trigger) {
    return refuse(ErrorCode::bad_input, "places: {} has no such interval on {}", place.machine, moved.counter);
  }
  if (trigger->interval == edit.interval) {
    return refuse(ErrorCode::bad_input, Saying{"changes-nothing"}, "interval: {} has it already", place.machine);
  }
  HW_TRY(check_demand(present->task, trigger->interval, edit));
  const Demand demand = demand_of(present->task);
  if (demand != Demand::nobody) moved.demanded_by = word_of(demand);
  moved.from = trigger->interval;
  set_interval(*trigger, edit.interval);
  if (moved.shape > 0) {
    auto& costs = step.record.task.costs;
    if (!costs) costs.emplace();
    costs->wear = std::clamp(moved.shape, 0.1, 30.0);
  }
  HW_TRY(catalogue::check(step.record.task));
  ++step.record.version;
  HW_TAKE(entry, new_entry(shop, *machine, interval_moved,
                           {id_within(edit.id, place.machine), edit.by, edit.at, edit.sent_at}, now));
  step.entry = std::move(entry);
  tell(step.entry, step.record, moved, edit.why);
  return step;
}

Result<void> keep_steps(OpenShop& shop, std::vector<Step>& steps) {
  HW_TAKE(writing, shop.store().begin());
  for (Step& step : steps) {
    HW_TRY(writing->add_entry(step.entry));
    HW_TRY(writing->put_task(step.machine->record.machine.key, step.record));
  }
  HW_TRY(writing->commit());
  const auto lock = shop.change();
  for (Step& step : steps) {
    ++step.machine->tasks_version;
    for (TaskRecord& record : step.machine->record.tasks) {
      if (record.task.key == step.record.task.key) record = step.record;
    }
  }
  return {};
}

}  // namespace

Result<IntervalMovedView> move_interval(OpenShop& shop, PartStudies& studies, UseForecasts& forecasts,
                                        const PartName& name, const IntervalEdit& edit, Instant now) {
  HW_TRY(check(edit));
  const auto turn = shop.edit();
  IntervalMovedView view;
  for (const SeenPlace& place : edit.places) {
    HW_TAKE(before, repeated(shop, id_within(edit.id, place.machine), {interval_moved, place.machine, name.task}));
    if (before) view.entries.push_back(view_of(*before));
  }
  if (view.entries.size() == edit.places.size()) return view;
  if (!view.entries.empty()) {
    return refuse(ErrorCode::conflict, id_used, "id: {} moved other machines' intervals; an id is used once", edit.id);
  }
  HW_TAKE(study, studies.of(name, now));
  HW_TAKE(costs, costs_asked(*study, {edit.planned, edit.failed, {}}));
  if (!study->seen.counter) {
    return refuse(ErrorCode::bad_input, Saying{"interval-calendar"},
                  "the task counts on the calendar: its interval is changed in the task itself");
  }
  HW_TAKE(use, per_year(forecasts, *study, now));
  IntervalMoved moved = evidence(*study, costs, judged_move(*study, costs, edit.interval, use), edit);
  moved.currency = shop.record().stopping.currency;
  std::vector<Step> steps;
  for (const SeenPlace& place : edit.places) {
    HW_TAKE(step, step_at(shop, name, place, edit, moved, now));
    steps.push_back(std::move(step));
  }
  HW_TRY(keep_steps(shop, steps));
  for (const Step& step : steps) view.entries.push_back(view_of(step.entry));
  return view;
}

}  // namespace hw::service
