#include <algorithm>

#include "src/due/task_state.h"
#include "src/service/make_views.h"
#include "src/service/reading_triggers.h"

namespace hw::service {
namespace {

// What a task's triggers are judged by.
struct Standpoint {
  const OpenShop& shop;
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
  const auto standing = due::standing(trigger, at.shop.calendar(), done_at, at.now);
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

due::TaskState state_of(const ReadingDue& due, int heads_up_days, LocalDate today) {
  if (due.beyond_on) return due::TaskState::due;
  const auto soon = due::quantile(due.due, 0.1);
  return soon && *soon <= today + heads_up_days ? due::TaskState::coming : due::TaskState::in_hand;
}

// The reading as it is now; nothing where its task or the reading is not there any more.
std::shared_ptr<const ReadingDue> reading_due_of(const catalogue::ReadingTrigger& trigger, const TaskRecord& record,
                                                 const Standpoint& at) {
  const Instant since = record.last_done ? record.last_done->happened_at : record.began_at;
  for (const TaskRecord& source : at.machine.record.tasks) {
    if (source.task.key != trigger.of || source.retired_at) continue;
    for (const catalogue::TaskReading& reading : source.task.readings) {
      if (reading.what != trigger.reading) continue;
      const auto due =
          at.machine.readings.due_since(at.shop.store(), at.shop.calendar().zone,
                                        {at.machine.record.machine.key, source.task, reading}, trigger.limit, since);
      return due ? *due : nullptr;
    }
  }
  return nullptr;
}

std::string unit_of(const catalogue::ReadingTrigger& trigger, const OpenMachine& machine) {
  for (const TaskRecord& source : machine.record.tasks) {
    if (source.task.key != trigger.of) continue;
    for (const catalogue::TaskReading& reading : source.task.readings) {
      if (reading.what == trigger.reading) return reading.unit;
    }
  }
  return "";
}

Judged judge(const catalogue::ReadingTrigger& trigger, const TaskRecord& record, const Standpoint& at) {
  Judged out;
  out.view.reading = trigger.reading;
  out.view.of = trigger.of;
  out.view.limit = word_of(trigger.limit);
  out.view.unit = unit_of(trigger, at.machine);
  out.view.heads_up_days = trigger.heads_up_days;
  const auto due = reading_due_of(trigger, record, at);
  if (!due) return out;
  const Zone& zone = at.shop.calendar().zone;
  out.state = state_of(*due, trigger.heads_up_days, zone.date_of(at.now));
  out.view.limit_at = due->limit_at;
  out.view.due_on = due->beyond_on;
  out.view.share_used = due->share;
  if (due->last) {
    out.view.last_value = due->last->value;
    out.view.read_on = zone.date_of(due->last->at);
  }
  out.view.reading_due = due;
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
  judge_triggers(view, record, {shop, machine, totals, now});
  return view;
}

}  // namespace hw::service
