#include <algorithm>

#include "libs/formats/enum_words.h"
#include "src/month/figure_notes.h"
#include "src/service/machine_month.h"
#include "src/service/use_cases.h"

namespace hw::service {
namespace {

struct OfMachine {
  const OpenMachine* machine;
  MachineMonth month;
};

// Those that the query asks for, in the catalogue's order.
Result<std::vector<const OpenMachine*>> machines_asked(const OpenShop& shop, const MonthQuery& query) {
  std::vector<const OpenMachine*> asked;
  if (query.machine) {
    HW_TAKE(machine, shop.find(*query.machine));
    if (query.kind && machine->record.machine.kind != *query.kind) {
      return refuse(ErrorCode::bad_input, "kind: {} is of the kind \"{}\", not \"{}\"", *query.machine,
                    machine->record.machine.kind, query.kind->substr(0, 60));
    }
    return std::vector<const OpenMachine*>{machine};
  }
  for (const auto& machine : shop.machines()) {
    if (!query.kind || machine->record.machine.kind == *query.kind) asked.push_back(machine.get());
  }
  if (asked.empty() && query.kind) {
    return refuse(ErrorCode::not_found, "kind: the shop has no machine of the kind \"{}\"", query.kind->substr(0, 60));
  }
  return asked;
}

Result<std::vector<OfMachine>> months_of(const OpenShop& shop, const std::vector<const OpenMachine*>& machines,
                                         const MonthSpan& span, Instant now) {
  std::vector<OfMachine> all;
  for (const OpenMachine* machine : machines) {
    HW_TAKE(month, machine_month(shop, *machine, span, now));
    HW_TRY(check(month.sums));
    all.push_back({machine, std::move(month)});
  }
  return all;
}

month::MonthSums sum_of(const std::vector<OfMachine>& all) {
  month::MonthSums sums;
  for (const OfMachine& one : all) sums += one.month.sums;
  return sums;
}

FigureValueView value_of(const month::KeyFigure& figure) {
  FigureValueView view{.value = {}, .low = figure.low, .high = figure.high, .at_least = figure.at_least, .none = {}};
  if (figure.value) view.value.emplace(*figure.value);
  if (figure.none) view.none = formats::print_word(*figure.none);
  return view;
}

MonthFigureView figure_view(const month::KeyFigure& figure) {
  const month::FigureNote& note = month::note_of(figure.key);
  const condition::StandardNote& source = note.standard;
  return {.key = formats::print_word(figure.key),
          .title = std::string(note.title),
          .unit = std::string(note.unit),
          .now = value_of(figure),
          .before = {},
          .definition = std::string(note.definition),
          .formula = std::string(note.formula),
          .source = {std::string(source.edition), std::string(source.confirmed), std::string(source.from_memory),
                     std::string(source.check)}};
}

void add_figures(MonthView& view) {
  for (const month::KeyFigure& figure : month::key_figures(view.sums)) view.figures.push_back(figure_view(figure));
  if (!view.sums_before) return;
  const auto before = month::key_figures(*view.sums_before);
  for (std::size_t i = 0; i < before.size(); ++i) view.figures[i].before = value_of(before[i]);
}

void add_standing_views(MonthView& view, const std::string& machine, const MonthStanding& standing) {
  view.findings_made += standing.findings_made;
  view.findings_settled += standing.findings_settled;
  for (const Failure& one : standing.failures) {
    MonthFailureView failure{.finding = one.finding.id,
                             .machine = machine,
                             .what = one.finding.what,
                             .found_at = one.finding.at,
                             .settled_at = {},
                             .stood_h = month::hours_of({one.stood}),
                             .of_month = one.is_of_month,
                             .goes_on = one.goes_on,
                             .operating_h = one.operating_at_begin};
    if (one.finding.settled) failure.settled_at.emplace(one.finding.settled->at);
    view.failures.push_back(std::move(failure));
  }
  for (const ClosedStop& one : standing.stops) {
    view.stops.push_back({.stop = one.stop.id,
                          .machine = machine,
                          .on = one.stop.plan.on,
                          .began_at = one.stop.closed->began_at,
                          .ended_at = one.stop.closed->ended_at,
                          .stood_h = month::hours_of({one.stood}),
                          .done = static_cast<int>(one.stop.done.size()),
                          .of = static_cast<int>(one.stop.plan.tasks.size())});
  }
}

void add_task_views(MonthView& view, const std::string& machine, const MonthTasks& tasks) {
  for (const DoneWork& one : tasks.done) {
    view.works.push_back({one.entry, machine, one.task, one.title, one.by, one.at, one.minutes, one.is_measured,
                          one.is_in_time, one.stop});
  }
  for (const OverdueTask& one : tasks.overdue) view.overdue.push_back({machine, one.task, one.title, one.is_of_month});
  view.changes.insert(view.changes.end(), tasks.changes.begin(), tasks.changes.end());
}

std::vector<MonthDayView> day_views(const OpenShop& shop, const MonthSpan& span, const MonthHours& hours) {
  const month::TimeSpans planned = planned_in(shop.calendar(), span);
  std::vector<MonthDayView> days;
  for (const DayHours& day : hours.days) {
    const double planned_h = month::hours_of(month::overlap(planned, day_in(shop.calendar(), span, day.on)));
    days.push_back({day.on, planned_h, day.operating_h, day.unknown_h, day.powered_h, day.powered_unknown_h});
  }
  return days;
}

void add_machines(MonthView& view, const std::vector<OfMachine>& all) {
  for (const auto& [machine, month] : all) {
    const std::string& key = machine->record.machine.key;
    view.machines.push_back({key, month.sums, month.sums.corrective_h + month.sums.stops_h});
    add_standing_views(view, key, month.standing);
    add_task_views(view, key, month.tasks);
  }
  std::stable_sort(view.machines.begin(), view.machines.end(),
                   [](const auto& a, const auto& b) { return a.stood_h > b.stood_h; });
}

MonthView month_view(const OpenShop& shop, const MonthQuery& query, const MonthSpan& span, Instant now) {
  const catalogue::Stopping& stopping = shop.record().stopping;
  const Zone& zone = shop.calendar().zone;
  MonthView view;
  view.month = month::print(span.month);
  view.first = span.first;
  view.last = span.last;
  view.until = span.time.ends_at;
  view.is_over = span.is_over;
  view.began = month::print(month::month_of(zone.date_of(shop.founded_at())));
  view.present = month::print(month::month_of(zone.date_of(now)));
  view.machine = query.machine;
  view.kind = query.kind;
  view.currency = stopping.currency;
  view.labour_per_hour = stopping.labour_per_hour;
  view.confidence = month::confidence;
  return view;
}

}  // namespace

Result<MonthView> show_month(const OpenShop& shop, const MonthQuery& query, Instant now) {
  HW_TAKE(month, month::parse_month(query.month));
  HW_TAKE(span, span_of(shop, month, now));
  HW_TAKE(machines, machines_asked(shop, query));
  HW_TAKE(all, months_of(shop, machines, span, now));
  MonthView view = month_view(shop, query, span, now);
  view.sums = sum_of(all);
  if (const auto span_before = span_of(shop, month.before(), now)) {
    HW_TAKE(before, months_of(shop, machines, *span_before, now));
    view.sums_before = sum_of(before);
  }
  add_figures(view);
  add_machines(view, all);
  if (query.machine) view.days = day_views(shop, span, all.front().month.hours);
  return view;
}

}  // namespace hw::service
