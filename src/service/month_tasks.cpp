#include "src/service/month_tasks.h"

#include <algorithm>

#include "src/catalogue/round.h"
#include "src/due/task_state.h"
#include "src/service/lives.h"
#include "src/service/make_views.h"
#include "src/service/task_forecast.h"
#include "src/service/use_cases.h"

namespace hw::service {
namespace {

// Every time that each task was done, in order of time.
using DoneEntries = std::map<std::string, std::vector<Entry>>;

Result<std::vector<Entry>> entries_until(const OpenShop& shop, const std::string& machine, std::string_view kind,
                                         std::optional<Instant> from, Instant until) {
  EntryFilter filter;
  filter.machine = machine;
  filter.kind = std::string{kind};
  filter.from = from;
  filter.until = until;
  HW_TAKE(entries, shop.store().entries(filter, entries_listed_max + 1));
  if (static_cast<int>(entries.size()) > entries_listed_max) {
    return refuse(ErrorCode::too_large, Saying{"entries-many", {}, {{"most", double{entries_listed_max}}}},
                  "these are more than {} entries; choose fewer by machine", entries_listed_max);
  }
  std::erase_if(entries, [](const Entry& one) { return one.is_undone || one.body.stray; });
  std::stable_sort(entries.begin(), entries.end(),
                   [](const Entry& a, const Entry& b) { return a.happened_at < b.happened_at; });
  return std::move(entries);
}

Result<DoneEntries> done_until(const OpenShop& shop, const std::string& machine, Instant until) {
  HW_TAKE(entries, entries_until(shop, machine, "task done", {}, until));
  DoneEntries by_task;
  for (Entry& entry : entries) {
    if (entry.task) by_task[*entry.task].push_back(std::move(entry));
  }
  return by_task;
}

// The last of them before that moment.
std::optional<Entry> last_before(const std::vector<Entry>& entries, Instant at) {
  const auto after =
      std::find_if(entries.begin(), entries.end(), [&](const Entry& one) { return one.happened_at >= at; });
  return after == entries.begin() ? std::nullopt : std::optional{*std::prev(after)};
}

// Where a machine's task stood at a moment that is past.
struct PastMoment {
  Instant at;
  Instant done_before;  // which of the times that it was done count
  const CounterTotals& totals;
};

struct Judge {
  const OpenShop& shop;
  const OpenMachine& machine;

  // Nothing where the task was not there, or is the check of a round.
  // `done`: every entry that did the task, answers of rounds too.
  std::optional<bool> is_overdue(TaskRecord record, const std::vector<Entry>& done, const PastMoment& then) const {
    if (record.began_at > then.at || (record.retired_at && *record.retired_at <= then.at)) return std::nullopt;
    record.last_done = last_before(done, then.done_before);
    const TaskView view = view_of(shop, machine, record, then.totals, then.at);
    if (is_round_check(view)) return std::nullopt;
    return view.state == due::word_of(due::TaskState::overdue);
  }
};

DoneWork work_of(const Entry& entry, const TaskRecord* record) {
  DoneWork work{.entry = entry.id, .task = *entry.task, .title = *entry.task, .by = entry.by, .at = entry.happened_at};
  if (record != nullptr) {
    work.title = record->task.title;
    work.minutes = record->task.minutes;
  }
  if (entry.body.title) work.title = *entry.body.title;
  if (entry.body.doing && entry.body.doing->minutes) {
    work.minutes = *entry.body.doing->minutes;
    work.is_measured = true;
  }
  work.stop = entry.body.stop;
  return work;
}

// `doings` judge, `done` counts: a check of a round is done by walking it, too, and that is no work of its own.
void add_done(MonthTasks& tasks, const Judge& judge, const TaskRecord* record, const std::vector<Entry>& done,
              const std::vector<Entry>& doings, const MonthSpan& span) {
  for (const Entry& entry : done) {
    if (!is_in(span, entry.happened_at)) continue;
    DoneWork work = work_of(entry, record);
    if (record != nullptr) {
      const CounterTotals totals = as_counted_now(judge.machine, entry);
      work.is_in_time =
          !judge.is_overdue(*record, doings, {entry.happened_at, entry.happened_at, totals}).value_or(false);
    }
    tasks.done.push_back(std::move(work));
  }
}

// Overdue at the month's end. It became so in the month where it was not at the beginning, or was done since.
void add_overdue(MonthTasks& tasks, const Judge& judge, const TaskRecord& record, const std::vector<Entry>& done,
                 const MonthSpan& span, const MonthHours& hours) {
  if (!judge.is_overdue(record, done, {span.time.ends_at, span.month_ends_at, hours.at_end}).value_or(false)) return;
  const bool was_done = !done.empty() && done.back().happened_at >= span.time.begins_at;
  const bool was_overdue =
      judge.is_overdue(record, done, {span.time.begins_at, span.time.begins_at, hours.at_begin}).value_or(false);
  tasks.overdue.push_back({record.task.key, record.task.title, was_done || !was_overdue});
}

// What people changed of tasks, and whose interval was moved after a look at its lives.
Result<void> add_changes(MonthTasks& tasks, const OpenShop& shop, const std::string& machine, const MonthSpan& span) {
  for (const std::string_view kind : {std::string_view{"task changed"}, interval_moved}) {
    HW_TAKE(entries, entries_until(shop, machine, kind, span.time.begins_at, span.month_ends_at));
    for (const Entry& entry : entries) tasks.changes.push_back(view_of(entry));
  }
  std::stable_sort(tasks.changes.begin(), tasks.changes.end(),
                   [](const auto& a, const auto& b) { return a.happened_at < b.happened_at; });
  return {};
}

// By the tasks that a round checks: every entry that did them until then.
Result<DoneEntries> walked_until(const OpenShop& shop, const OpenMachine& machine, Instant until) {
  std::vector<std::string> checks;
  {
    const auto lock = shop.look();
    for (const TaskRecord& record : machine.record.tasks) {
      if (catalogue::rhythm_of(record.task)) checks.push_back(record.task.key);
    }
  }
  DoneEntries walked;
  for (const std::string& check : checks) {
    HW_TAKE(doings, shop.store().doings_of(machine.record.machine.key, check));
    std::erase_if(doings, [&](const Entry& one) { return one.happened_at >= until; });
    walked[check] = std::move(doings);
  }
  return walked;
}

}  // namespace

Result<MonthTasks> tasks_in(const OpenShop& shop, const OpenMachine& machine, const MonthSpan& span,
                            const MonthHours& hours) {
  const std::string& key = machine.record.machine.key;
  HW_TAKE(done, done_until(shop, key, span.month_ends_at));
  HW_TAKE(walked, walked_until(shop, machine, span.month_ends_at));
  MonthTasks tasks;
  HW_TRY(add_changes(tasks, shop, key, span));
  const auto lock = shop.look();
  const Judge judge{shop, machine};
  for (const TaskRecord& record : machine.record.tasks) {
    const std::vector<Entry>& of_task = done[record.task.key];
    const auto by_round = walked.find(record.task.key);
    const std::vector<Entry>& doings = by_round == walked.end() ? of_task : by_round->second;
    add_done(tasks, judge, &record, of_task, doings, span);
    add_overdue(tasks, judge, record, doings, span, hours);
    done.erase(record.task.key);
  }
  for (const auto& [task, entries] : done) add_done(tasks, judge, nullptr, entries, entries, span);
  std::stable_sort(tasks.done.begin(), tasks.done.end(), [](const auto& a, const auto& b) { return a.at < b.at; });
  return tasks;
}

void add_tasks_done(month::MonthSums& sums, const MonthTasks& tasks, double labour_per_hour) {
  double hours = 0;
  for (const DoneWork& work : tasks.done) {
    hours += work.minutes / 60;
    if (work.stop) sums.work_in_stops_h += work.minutes / 60;
    ++sums.tasks_done;
    if (work.is_in_time) ++sums.tasks_done_in_time;
  }
  for (const OverdueTask& task : tasks.overdue) {
    if (task.is_of_month) ++sums.tasks_overdue_undone;
  }
  sums.work_h += hours;
  sums.care_cost += labour_per_hour * hours;
}

}  // namespace hw::service
