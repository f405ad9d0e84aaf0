#include <array>

#include "src/service/entry_making.h"
#include "src/service/machine_uses.h"
#include "src/service/make_views.h"
#include "src/service/reading_triggers.h"
#include "src/service/use_cases.h"

namespace hw::service {
namespace {

HorizonTaskView task_view(const TaskView& task, ForecastView forecast) {
  return {task.key, task.title, task.assembly, task.skill, task.energy, task.minutes, task.state, std::move(forecast)};
}

// The caller holds a lock.
HorizonMachineView machine_view(const OpenShop& shop, const OpenMachine& machine, const UseByCounter& uses,
                                Instant now) {
  const catalogue::Machine& what = machine.record.machine;
  HorizonMachineView view{what.key, what.name, what.kind, what.cell, {}};
  const MachineNow present = machine.count.at(now);
  const CounterTotals totals = totals_of(machine, present.counters);
  const UsedToday used_today = used_today_in(present.counters);
  const LocalDate today = shop.calendar().zone.date_of(now);
  for (const TaskRecord& record : machine.record.tasks) {
    if (record.retired_at) continue;
    const TaskView task = view_of(shop, machine, record, totals, now);
    if (is_round_check(task)) continue;
    view.tasks.push_back(task_view(task, forecast_view(task, today, use_in(uses), used_today)));
  }
  return view;
}

// "06:00".
std::string clock_time(int minute_of_day) { return fmt::format("{:02}:{:02}", minute_of_day / 60, minute_of_day % 60); }

void tell_calendar(HorizonView& view, const catalogue::PlantCalendar& calendar) {
  for (const auto& closed : calendar.closed) {
    if (closed.on >= view.today) view.closed.push_back({closed.on, closed.why});
  }
  for (const auto& shift : calendar.shifts) {
    view.shifts.push_back({shift.name, clock_time(shift.begins_minute), clock_time(shift.ends_minute), shift.weekdays});
  }
}

QuantilesView quantiles_view(const due::DueQuantiles& days) {
  QuantilesView view;
  const std::array shown{&view.p05, &view.p10, &view.p25, &view.p50, &view.p75, &view.p90, &view.p95};
  for (std::size_t i = 0; i < shown.size(); ++i) {
    if (days[i]) *shown[i] = *days[i];
  }
  return view;
}

void tell_refusal(TriggerWorkingView& view, const Error& refused) {
  view.refused = refused.message;
  view.refusal = refused.saying;
}

// What the forecast of a counter rests on, in numbers.
void add_working(TriggerWorkingView& view, const CounterUse& use, double left) {
  view.history.emplace();
  const LocalDate first = use.history.start - 400;
  for (const due::UseDay& day : use.counted) {
    if (day.on >= first) view.history->push_back({day.on, day.used});
  }
  if (!use.lent_by.empty()) view.lent_by = use.lent_by;
  if (!use.forecast) {
    tell_refusal(view, *use.refused);
    return;
  }
  const due::UseWorking& working = use.forecast->working();
  view.basis = use.forecast->basis();
  view.first_on = working.first_on;
  view.last_on = working.last_known_on;
  view.chances.emplace();
  for (const due::DueStep& step : use.forecast->distribution(left)) view.chances->push_back({step.on, step.chance});
  view.weekdays.emplace(working.weekdays.shares.begin(), working.weekdays.shares.end());
  view.ahead.emplace();
  for (const due::LevelAhead& one : working.ahead) view.ahead->push_back({one.days, one.per_day, one.spread});
  view.mean_per_day = working.mean_per_day;
  view.known_days = working.known_days;
  view.unknown_days = working.unknown_days;
  view.memory_days = working.memory_days;
  view.season_weight = working.season_weight;
  view.idle_days = working.idle_days;
}

void add_reading(TriggerWorkingView& view, const TriggerView& trigger, const TriggerForecast& forecast) {
  view.reading = trigger.reading;
  view.of = trigger.of;
  view.limit = trigger.limit;
  view.limit_at = trigger.limit_at;
  view.last_value = trigger.last_value;
  view.read_on = trigger.read_on;
  view.basis = "first passage of a value that drifts and scatters, by what was read since the task was last done";
  view.chances.emplace();
  for (const due::DueStep& step : forecast.by_reading) view.chances->push_back({step.on, step.chance});
  if (trigger.reading_due) view.known_days = trigger.reading_due->days_read;
  if (forecast.refused) tell_refusal(view, *forecast.refused);
}

TriggerWorkingView trigger_view(const TriggerView& trigger, const TriggerForecast& forecast, const CounterUse* use,
                                double used_today) {
  TriggerWorkingView view;
  view.quantiles = quantiles_view(forecast.days);
  if (trigger.calendar) {
    view.calendar = trigger.calendar;
    view.basis = fmt::format("exact date of the calendar: {} after it was last done", *trigger.calendar);
    return view;
  }
  view.unit = trigger.unit;
  if (trigger.reading) {
    add_reading(view, trigger, forecast);
    return view;
  }
  view.counter = trigger.counter;
  view.left = forecast.left;
  view.used_today = used_today;
  if (forecast.refused) tell_refusal(view, *forecast.refused);
  if (use) add_working(view, *use, *forecast.left);
  return view;
}

}  // namespace

Result<HorizonView> show_horizon(const OpenShop& shop, UseForecasts& forecasts, std::optional<std::string_view> only,
                                 Instant now) {
  if (only) HW_TRY(shop.find(*only));
  HorizonView view;
  view.now = now;
  view.today = shop.calendar().zone.date_of(now);
  tell_calendar(view, shop.calendar());
  HW_TAKE(stops, show_stops(shop, {only ? std::optional{std::string{*only}} : std::nullopt}));
  view.stops = std::move(stops.stops);
  for (const auto& machine : shop.machines()) {
    if (only && machine->record.machine.key != *only) continue;
    HW_TAKE(uses, uses_of(shop, forecasts, *machine, now));
    const auto lock = shop.look();
    view.machines.push_back(machine_view(shop, *machine, uses, now));
  }
  return view;
}

Result<ForecastWorkingView> show_forecast(const OpenShop& shop, UseForecasts& forecasts, std::string_view key,
                                          std::string_view task_key, Instant now) {
  HW_TAKE(machine, shop.find(key));
  HW_TAKE(uses, uses_of(shop, forecasts, *machine, now));
  const auto lock = shop.look();
  HW_TAKE(record, find_task(*machine, task_key));
  const MachineNow present = machine->count.at(now);
  const TaskView task = view_of(shop, *machine, *record, totals_of(*machine, present.counters), now);
  const UsedToday used_today = used_today_in(present.counters);
  const LocalDate today = shop.calendar().zone.date_of(now);
  ForecastWorkingView view{std::string{key}, task.key, {}, {}};
  for (const TriggerView& trigger : task.triggers) {
    const TriggerForecast one = forecast_of(trigger, today, use_in(uses), used_today);
    const CounterUse* use = trigger.counter ? use_in(uses)(*trigger.counter) : nullptr;
    view.triggers.push_back(trigger_view(trigger, one, use, trigger.counter ? used_today(*trigger.counter) : 0));
  }
  view.quantiles = quantiles_view(first_due(task, today, use_in(uses), used_today));
  return view;
}

}  // namespace hw::service
