#include <algorithm>

#include "src/due/task_state.h"
#include "src/service/make_views.h"

namespace hw::service {
namespace {

// What a task's triggers are judged by.
struct Standpoint {
  const catalogue::PlantCalendar& calendar;
  const OpenMachine& machine;
  const CounterTotals& totals;
  Instant now;
};

// A trigger's view with the state that it gives the task.
struct Judged {
  TriggerView view;
  due::TaskState state = due::TaskState::in_hand;
};

double total_of(const CounterTotals& totals, const std::string& counter) {
  const auto found = totals.find(counter);
  return found == totals.end() ? 0 : found->second;
}

std::string unit_of(const std::string& counter) {
  const auto key = counters::parse_counter_key(counter);
  return key ? std::string{counters::unit_of(key->kind)} : "";
}

Judged judge(const catalogue::CounterTrigger& trigger, const TaskRecord& record, const Standpoint& at) {
  const CounterTotals& then = record.last_done ? record.last_done->counters : record.began_counters;
  const Instant then_at = record.last_done ? record.last_done->happened_at : record.began_at;
  Judged out;
  out.view.counter = trigger.counter;
  out.view.unit = unit_of(trigger.counter);
  out.view.interval = trigger.interval;
  out.view.heads_up = trigger.heads_up;
  out.view.tolerance = trigger.tolerance;
  out.view.counter_then = total_of(then, trigger.counter) + start_moved_since(at.machine, trigger.counter, then_at);
  out.view.counter_now = total_of(at.totals, trigger.counter);
  const auto standing = due::standing(trigger, *out.view.counter_then, *out.view.counter_now);
  out.view.used = standing.used;
  out.view.left = standing.left;
  out.view.share_used = standing.share_used;
  out.state = standing.state;
  return out;
}

Judged judge(const catalogue::CalendarTrigger& trigger, const TaskRecord& record, const Standpoint& at) {
  const Instant done_at = record.last_done ? record.last_done->happened_at : record.began_at;
  const auto standing = due::standing(trigger, at.calendar, done_at, at.now);
  Judged out;
  out.view.calendar = print(trigger.every);
  out.view.heads_up_days = trigger.heads_up_days;
  out.view.tolerance_days = trigger.tolerance_days;
  out.view.due_on = standing.due_on;
  out.view.days_left = standing.days_left;
  out.view.share_used = standing.share_used;
  out.state = standing.state;
  return out;
}

Judged judge(const catalogue::Trigger& trigger, const TaskRecord& record, const Standpoint& at) {
  Judged out = std::visit([&](const auto& one) { return judge(one, record, at); }, trigger);
  out.view.state = word_of(out.state);
  return out;
}

// The first trigger that falls due decides: the worst state, and among equals the one that is used up furthest.
bool is_more_urgent(const Judged& a, const Judged& b) {
  return a.state != b.state ? a.state > b.state : a.view.share_used > b.view.share_used;
}

void judge_triggers(TaskView& view, const TaskRecord& record, const Standpoint& at) {
  std::vector<Judged> judged;
  for (const auto& trigger : record.task.triggers) judged.push_back(judge(trigger, record, at));
  const auto leading = std::min_element(judged.begin(), judged.end(), is_more_urgent);
  leading->view.leads = true;
  view.state = word_of(leading->state);
  for (Judged& one : judged) view.triggers.push_back(std::move(one.view));
}

// Of a round's entry only what it says of this task.
EntryView last_done_view(const Entry& entry, const std::string& task) {
  EntryView view = view_of(entry);
  if (view.answers) std::erase_if(*view.answers, [&](const GivenAnswer& one) { return one.task != task; });
  return view;
}

}  // namespace

TaskView view_of(const OpenShop& shop, const OpenMachine& machine, const TaskRecord& record,
                 const CounterTotals& totals, Instant now) {
  const TaskText text = text_of(record.task);
  TaskView view{.key = record.task.key,
                .machine = machine.record.machine.key,
                .title = text.title,
                .assembly = text.assembly,
                .point = text.point,
                .work = text.work,
                .skill = text.skill,
                .energy = text.energy,
                .minutes = text.minutes,
                .triggers = {},
                .state = {},
                .own = record.is_own,
                .steps = *text.steps,
                .reason = *text.reason,
                .caution = *text.caution,
                .parts = *text.parts,
                .readings = text.readings,
                .quantity_unit = text.quantity_unit,
                .after = text.after,
                .demanded_by = text.demanded_by,
                .costs = text.costs,
                .version = record.version,
                .last_done = {},
                .began_at = record.began_at};
  if (record.last_done) view.last_done = last_done_view(*record.last_done, record.task.key);
  judge_triggers(view, record, {shop.calendar(), machine, totals, now});
  return view;
}

}  // namespace hw::service
