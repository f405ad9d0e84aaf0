#include "src/service/stop_entries.h"

#include <fmt/ranges.h>

#include "src/service/entry_making.h"

namespace hw::service {
namespace {

// "stop of 2026-03-07, early".
std::string name_of(LocalDate on, const std::string& shift) {
  return shift.empty() ? fmt::format("stop of {}", print(on)) : fmt::format("stop of {}, {}", print(on), shift);
}

std::vector<std::string> titles_of(const std::vector<PlannedTask>& tasks) {
  std::vector<std::string> titles;
  for (const PlannedTask& task : tasks) titles.push_back(task.title);
  return titles;
}

std::optional<std::string> said(const std::optional<std::string>& text) {
  return text && !text->empty() ? text : std::nullopt;
}

bool are_same_tasks(const StopPlan& one, const StopPlan& other) {
  return std::equal(one.tasks.begin(), one.tasks.end(), other.tasks.begin(), other.tasks.end(),
                    [](const PlannedTask& a, const PlannedTask& b) { return a.task == b.task; });
}

// What a change tells: "now 2026-03-09, late; tasks: Replace the filter; note".
std::string differences_told(const StopPlan& before, const StopPlan& plan, StopTold& told) {
  std::vector<std::string> all;
  if (plan.on != before.on || plan.shift != before.shift) {
    told.to_on = plan.on;
    told.to_shift = plan.shift;
    all.push_back("now the " + name_of(plan.on, plan.shift));
  }
  if (!are_same_tasks(before, plan)) {
    told.tasks = titles_of(plan.tasks);
    all.push_back(fmt::format("tasks: {}", fmt::join(*told.tasks, ", ")));
  }
  if (all.empty()) all.emplace_back("a note");
  return fmt::format("{}", fmt::join(all, "; "));
}

}  // namespace

void tell_agreed(Entry& entry, const StopPlan& plan) {
  entry.body.stop = entry.id;
  entry.body.plan = plan;
  entry.body.stop_told = StopTold{.on = plan.on, .shift = plan.shift, .tasks = titles_of(plan.tasks)};
  entry.note = said(plan.note);
  entry.says =
      fmt::format("{}: agreed: {}", name_of(plan.on, plan.shift), fmt::join(*entry.body.stop_told->tasks, ", "));
}

void tell_changed(Entry& entry, const Stop& stop, const StopPlan& plan) {
  StopTold told{.on = stop.plan.on, .shift = stop.plan.shift};
  const std::string differences = differences_told(stop.plan, plan, told);
  entry.body.stop = stop.id;
  entry.body.plan = plan;
  entry.body.stop_told = told;
  if (plan.note != stop.plan.note) entry.note = said(plan.note);
  entry.says = fmt::format("{}: changed: {}", name_of(told.on, told.shift), differences);
}

void tell_withdrawn(Entry& entry, const Stop& stop, const std::string& why) {
  entry.body.stop = stop.id;
  entry.body.stop_told = StopTold{.on = stop.plan.on, .shift = stop.plan.shift};
  entry.body.why = why;
  entry.says = fmt::format("{}: withdrawn: {}", name_of(stop.plan.on, stop.plan.shift), why);
}

void tell_closed(Entry& entry, const Stop& stop, const std::vector<PlannedTask>& tasks, const StopClose& edit) {
  const int done = static_cast<int>(edit.done.size());
  const int of = static_cast<int>(tasks.size());
  entry.body.stop = stop.id;
  entry.body.plan = stop.plan;
  entry.body.plan->tasks = tasks;
  entry.body.times = StopTimes{edit.began_at, edit.ended_at};
  entry.body.stop_told = StopTold{.on = stop.plan.on, .shift = stop.plan.shift, .done = done, .of = of};
  entry.note = said(edit.note);
  entry.says = fmt::format("{}: closed; {} of {} tasks done", name_of(stop.plan.on, stop.plan.shift), done, of);
}

void tell_done_in(Entry& entry, const Stop& stop, const std::string& title, const StopDone& done) {
  entry.task = done.task;
  entry.note = said(done.note);
  entry.body.stop = stop.id;
  tell_done(entry, title, done.as_found);
  entry.body.doing = TaskDoing{done.as_found, done.minutes, done.readings, done.quantity, {}};
}

}  // namespace hw::service
