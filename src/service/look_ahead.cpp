#include "src/service/look_ahead.h"

#include <algorithm>
#include <cmath>

#include "src/due/task_state.h"
#include "src/service/kind_services.h"
#include "src/service/machine_uses.h"
#include "src/service/make_views.h"
#include "src/service/parts_awaited.h"
#include "src/service/reading_triggers.h"
#include "src/service/stop_plan.h"

namespace hw::service {
namespace {

constexpr double tolerance_days_max = 60;
constexpr double over_days_max = 3650;

// A machine at one moment. The caller holds a lock.
struct Looking {
  const OpenShop& shop;
  const OpenMachine& machine;
  const UseByCounter& uses;
  CounterTotals totals;
  UsedToday used_today;
  LocalDate today;
  Instant now;
};

// What one trigger says of its task.
struct TriggerAhead {
  due::DueDistribution due;
  due::DueDistribution next;
  double tolerance_days = 0;
};

double mean_per_day(const CounterUse* use) { return use && use->forecast ? use->forecast->working().mean_per_day : 0; }

double days_for(double amount, double per_day, double most) {
  return per_day > 0 ? std::min(most, amount / per_day) : 0;
}

TriggerAhead ahead_of(const catalogue::CounterTrigger& trigger, const TriggerView& view, const Looking& at) {
  const CounterUse* use = use_in(at.uses)(trigger.counter);
  const double per_day = mean_per_day(use);
  TriggerAhead ahead;
  ahead.tolerance_days = days_for(trigger.tolerance, per_day, tolerance_days_max);
  if (use && use->forecast) ahead.next = use->forecast->distribution(trigger.interval);
  if (*view.left <= 0) {
    ahead.due =
        due::on_calendar(at.today - static_cast<int>(std::lround(days_for(-*view.left, per_day, over_days_max))));
  } else if (use && use->forecast) {
    ahead.due = use->forecast->distribution(*view.left + at.used_today(trigger.counter));
  }
  return ahead;
}

TriggerAhead ahead_of(const catalogue::CalendarTrigger& trigger, const TriggerView& view, const Looking& at) {
  const auto next = due::standing(trigger, at.shop.calendar(), at.now, at.now);
  return {due::on_calendar(*view.due_on), due::on_calendar(next.due_on), static_cast<double>(trigger.tolerance_days)};
}

// When it would meet its limit again after the task is done, nobody knows before it was read again.
TriggerAhead ahead_of(const catalogue::ReadingTrigger&, const TriggerView& view, const Looking&) {
  return {view.reading_due ? view.reading_due->due : due::DueDistribution{}, {}, 0};
}

std::optional<LocalDate> median_of(const due::DueDistribution& due) { return due::quantile(due, 0.5); }

// Counters of one machine rise together and readings are independent of them, as in task_forecast.h; the tolerance is
// that of the trigger that leads.
proposal::TaskAhead task_ahead(const TaskRecord& record, const TaskView& view, const Looking& at) {
  proposal::TaskAhead ahead;
  ahead.task = record.task;
  std::vector<due::DueDistribution> dues;
  std::vector<due::DueDistribution> nexts;
  std::vector<due::DueDistribution> readings;
  std::optional<LocalDate> leading;
  for (std::size_t i = 0; i < record.task.triggers.size(); ++i) {
    const auto of_trigger = [&](const auto& trigger) { return ahead_of(trigger, view.triggers[i], at); };
    TriggerAhead one = std::visit(of_trigger, record.task.triggers[i]);
    const auto median = median_of(one.due);
    if (i == 0 || (median && (!leading || *median < *leading))) {
      leading = median;
      ahead.tolerance_days = one.tolerance_days;
    }
    if (const auto* by_calendar = std::get_if<catalogue::CalendarTrigger>(&record.task.triggers[i])) {
      ahead.calendar.push_back({by_calendar->every, *view.triggers[i].due_on, by_calendar->tolerance_days});
    }
    const bool is_reading = std::holds_alternative<catalogue::ReadingTrigger>(record.task.triggers[i]);
    (is_reading ? readings : dues).push_back(std::move(one.due));
    nexts.push_back(std::move(one.next));
  }
  ahead.due = due::first_of(dues, due::Together::alike);
  if (!readings.empty()) {
    readings.push_back(std::move(ahead.due));
    ahead.due = due::first_of(readings, due::Together::independent);
  }
  ahead.next = due::first_of(nexts, due::Together::alike);
  const Instant since = record.last_done ? record.last_done->happened_at : record.began_at;
  ahead.age_days = std::max(0, at.today - at.shop.calendar().zone.date_of(since));
  return ahead;
}

// A check comes with every start-up, shift or day whatever is planned; without a date it costs nothing to do it along.
proposal::TaskAhead check_ahead(const TaskRecord& record) {
  proposal::TaskAhead ahead;
  ahead.task = record.task;
  return ahead;
}

enum class Checks { left_out, undated };

std::vector<proposal::TaskAhead> tasks_ahead(const Looking& at, Checks checks) {
  std::vector<proposal::TaskAhead> tasks;
  for (const TaskRecord& record : at.machine.record.tasks) {
    if (record.retired_at) continue;
    const TaskView view = view_of(at.shop, at.machine, record, at.totals, at.now);
    if (!is_round_check(view)) {
      tasks.push_back(task_ahead(record, view, at));
    } else if (checks == Checks::undated) {
      tasks.push_back(check_ahead(record));
    }
  }
  return tasks;
}

proposal::MachineAhead machine_ahead(const Looking& at, Checks checks) {
  const catalogue::Machine& what = at.machine.record.machine;
  return {
      what.key, what.name, what.cell, what.standing_per_hour, tasks_ahead(at, checks), services_of(at.shop, what.kind)};
}

proposal::AgreedTask agreed_task(const PlannedTask& task) {
  return {task.task, catalogue::parse_skill(task.skill).value_or(catalogue::Skill::technician),
          catalogue::parse_energy_state(task.energy).value_or(catalogue::EnergyState::isolated), task.minutes};
}

proposal::AgreedStop agreed_stop(const OpenMachine& machine, const Stop& stop) {
  proposal::AgreedStop agreed{.id = stop.id,
                              .machine = stop.machine,
                              .cell = machine.record.machine.cell,
                              .version = stop.version,
                              .on = stop.plan.on,
                              .shift = stop.plan.shift,
                              .begins_at = stop.plan.begins_at,
                              .tasks = {}};
  for (const PlannedTask& task : present_tasks(machine, stop.plan)) agreed.tasks.push_back(agreed_task(task));
  return agreed;
}

}  // namespace

Result<proposal::ShopAhead> look_ahead(const OpenShop& shop, UseForecasts& forecasts,
                                       std::optional<std::string_view> only, Instant now) {
  if (only) HW_TRY(shop.find(*only));
  const ShopRecord& record = shop.record();
  proposal::ShopAhead ahead{.now = now,
                            .today = shop.calendar().zone.date_of(now),
                            .calendar = shop.calendar(),
                            .stopping = record.stopping,
                            .cells = record.cells,
                            .people = record.people,
                            .machines = {},
                            .agreed = {}};
  for (const auto& machine : shop.machines()) {
    const bool is_wanted = !only || machine->record.machine.key == *only;
    UseByCounter uses;
    if (is_wanted) {
      HW_TAKE(learned, uses_of(shop, forecasts, *machine, now));
      uses = std::move(learned);
    }
    const auto lock = shop.look();
    for (const Stop& stop : machine->stops) ahead.agreed.push_back(agreed_stop(*machine, stop));
    if (!is_wanted) continue;
    const MachineNow present = machine->count.at(now);
    ahead.machines.push_back(machine_ahead({shop, *machine, uses, totals_of(*machine, present.counters),
                                            used_today_in(present.counters), ahead.today, now},
                                           only ? Checks::undated : Checks::left_out));
  }
  const auto lock = shop.look();
  const auto awaited = parts_awaited(shop, ahead);
  ahead.stopping.parts_awaited.insert(ahead.stopping.parts_awaited.end(), awaited.begin(), awaited.end());
  return ahead;
}

}  // namespace hw::service
