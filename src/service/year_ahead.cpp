#include "src/service/year_ahead.h"

#include <algorithm>
#include <set>

#include "src/service/machine_uses.h"
#include "src/service/make_views.h"

namespace hw::service {
namespace {

constexpr int year_days = 365;
constexpr double scatter_unknown = 0.5;  // our own choice: of use by the day that nothing tells of
constexpr double month_days = 365.25 / 12;

std::string life_key(const PartName& name) { return name.kind + "/" + name.task; }

double days_of(const catalogue::CalendarInterval& every) {
  switch (every.unit) {
    case catalogue::CalendarInterval::Unit::week:
      return 7.0 * every.count;
    case catalogue::CalendarInterval::Unit::month:
      return month_days * every.count;
    case catalogue::CalendarInterval::Unit::year:
      return 12 * month_days * every.count;
    case catalogue::CalendarInterval::Unit::start_up:
    case catalogue::CalendarInterval::Unit::shift:
    case catalogue::CalendarInterval::Unit::day:
      break;
  }
  return every.count;
}

// The days on which all these counters are known, open ones alone.
std::vector<rehearsal::PastDay> days_together(const std::vector<const CounterUse*>& uses,
                                              const catalogue::PlantCalendar& calendar) {
  std::map<LocalDate, std::vector<double>> by_day;
  for (const CounterUse* use : uses) {
    for (const due::UseDay& day : use->history.days) {
      if (!calendar.is_closed(day.on)) by_day[day.on].push_back(day.used);
    }
  }
  std::vector<rehearsal::PastDay> days;
  for (auto& [on, used] : by_day) {
    if (used.size() == uses.size()) days.push_back({iso_weekday(on), std::move(used)});
  }
  return days;
}

bool has_each_weekday(const std::vector<rehearsal::PastDay>& days) {
  std::set<int> weekdays;
  for (const auto& day : days) weekdays.insert(day.weekday);
  return weekdays.size() == 7;
}

rehearsal::WeekdayUse expected_use(const due::UseForecast& forecast) {
  const due::UseWorking& working = forecast.working();
  rehearsal::WeekdayUse use{{}, scatter_unknown};
  if (forecast.never_used() || working.ahead.empty()) return use;
  for (std::size_t n = 0; n < use.mean.size(); ++n) {
    use.mean[n] = working.ahead.back().per_day * working.weekdays.shares[n];
  }
  return use;
}

// Only counters of whose use something is known.
rehearsal::Machine machine_use(const OpenShop& shop, const UseByCounter& uses) {
  rehearsal::Machine made;
  std::vector<const CounterUse*> known;
  for (const auto& [counter, use] : uses) {
    if (!use->forecast) continue;
    made.counters.push_back(counter);
    known.push_back(use.get());
  }
  made.past = days_together(known, shop.calendar());
  if (has_each_weekday(made.past)) return made;
  made.past.clear();
  for (const CounterUse* use : known) made.use.push_back(expected_use(*use->forecast));
  return made;
}

// One machine at one moment. The caller holds a lock.
struct YearOf {
  const OpenShop& shop;
  const OpenMachine& machine;
  const LivesByPart& lives;
  CounterTotals totals;
  Instant now;
  rehearsal::Machine& made;
  YearAhead& ahead;

  bool counts(const std::optional<std::string>& counter) const {
    return !counter || std::find(made.counters.begin(), made.counters.end(), *counter) != made.counters.end();
  }

  void add_interval(rehearsal::Task& task, const catalogue::CounterTrigger& trigger, const TriggerView& view) const {
    if (!counts(trigger.counter)) return;
    task.intervals.push_back({trigger.counter, trigger.interval, trigger.heads_up, view.used.value_or(0)});
  }
  void add_interval(rehearsal::Task& task, const catalogue::CalendarTrigger& trigger, const TriggerView& view) const {
    const double days = days_of(trigger.every);
    const LocalDate today = shop.calendar().zone.date_of(now);
    const double left = view.due_on ? *view.due_on - today : days;
    const auto heads_up = static_cast<double>(trigger.heads_up_days);
    task.intervals.push_back({std::nullopt, days, std::min(heads_up, days / 2), std::max(0.0, days - left)});
  }

  // Readings are not played: a task that waits for one alone is without use.
  static void add_interval(rehearsal::Task& /*task*/, const catalogue::ReadingTrigger& /*trigger*/,
                           const TriggerView& /*view*/) {}

  void add_part(rehearsal::Task& task, const catalogue::PartCosts& said) const {
    const PartName name{machine.record.machine.kind, task.key};
    const auto life = lives.find(name);
    if (life == lives.end() || !counts(life->second.counter)) return;
    const catalogue::Stopping& stopping = shop.record().stopping;
    const bool stands = task.energy != catalogue::EnergyState::in_production;
    const auto& set_up = catalogue::set_up_of(stopping, task.energy);
    const double hours = task.minutes / 60;
    rehearsal::Part part{.counter = life->second.counter, .life = life_key(name)};
    for (const auto& interval : task.intervals) {
      if (interval.counter == part.counter) part.age = interval.used;
    }
    part.failed_cost = hours * stopping.labour_per_hour + said.parts + set_up.cost + said.failed_damage;
    part.failed_standing_hours =
        (stands ? hours : 0) + set_up.hours + (said.failed_hours == 0 ? failed_hours_unsaid : said.failed_hours);
    task.part = std::move(part);
    ++ahead.parts;
  }

  void add_task(const TaskRecord& record) const {
    const TaskView view = view_of(shop, machine, record, totals, now);
    if (record.retired_at || is_round_check(view)) return;
    rehearsal::Task task;
    task.key = record.task.key;
    task.minutes = record.task.minutes;
    task.energy = record.task.energy;
    for (std::size_t i = 0; i < record.task.triggers.size(); ++i) {
      const auto add = [&](const auto& trigger) { add_interval(task, trigger, view.triggers[i]); };
      std::visit(add, record.task.triggers[i]);
    }
    if (task.intervals.empty()) {
      ++ahead.without_use;
      return;
    }
    const catalogue::PartCosts said = record.task.costs.value_or(catalogue::PartCosts{});
    task.planned_cost = said.parts;
    add_part(task, said);
    made.tasks.push_back(std::move(task));
  }
};

void add_settings(rehearsal::ShopYear& year, const OpenShop& shop, LocalDate today) {
  const catalogue::Stopping& stopping = shop.record().stopping;
  year.days = year_days;
  year.first_weekday = iso_weekday(today);
  for (const auto& closed : shop.calendar().closed) {
    const int day = closed.on - today;
    if (day >= 0 && day < year_days) year.closed.push_back(day);
  }
  year.powered_at_rest = {stopping.powered_at_rest.hours, stopping.powered_at_rest.cost};
  year.isolated = {stopping.isolated.hours, stopping.isolated.cost};
  year.labour_per_hour = stopping.labour_per_hour;
}

}  // namespace

Result<LivesByPart> believed_parts(PartStudies& studies, Instant now) {
  HW_TAKE(all, studies.all(now));
  LivesByPart lives;
  for (const auto& study : all) {
    if (!study->believed.empty()) lives[study->seen.name] = {study->seen.counter, study->believed};
  }
  return lives;
}

Result<YearAhead> year_ahead(const OpenShop& shop, UseForecasts& forecasts, const LivesByPart& lives, Instant now) {
  YearAhead ahead;
  add_settings(ahead.shop, shop, shop.calendar().zone.date_of(now));
  for (const auto& [name, life] : lives) ahead.shop.lives.push_back({life_key(name), life.believed});
  for (const auto& machine : shop.machines()) {
    HW_TAKE(uses, uses_of(shop, forecasts, *machine, now));
    rehearsal::Machine made = machine_use(shop, uses);
    const auto lock = shop.look();
    const catalogue::Machine& what = machine->record.machine;
    made.key = what.key;
    made.kind = what.kind;
    made.standing_per_hour = what.standing_per_hour.value_or(shop.record().stopping.standing_per_hour);
    const YearOf year{shop, *machine, lives, totals_of(*machine, machine->count.at(now).counters), now, made, ahead};
    for (const TaskRecord& record : machine->record.tasks) year.add_task(record);
    ahead.shop.machines.push_back(std::move(made));
  }
  return ahead;
}

}  // namespace hw::service
