#include "src/sheets/month_report.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "libs/formats/enum_words.h"
#include "libs/values/assert.h"
#include "src/sheets/card_text.h"
#include "src/sheets/month_words.h"

namespace hw::sheets {
namespace {

using service::FigureValueView;
using service::MonthView;

// What all tables look at.
struct ReportContext {
  const MonthView& month;
  const ReportNames& names;
  CardLanguage language;
  const MonthWords& words;

  std::string machine(const std::string& key) const {
    const auto found = names.machines.find(key);
    return found == names.machines.end() ? key : found->second;
  }
  std::string day(Instant at) const { return print_day(names.zone.date_of(at), language); }
};

std::string print_tenths(double value, CardLanguage language) {
  std::string text = fmt::format("{:.1f}", value);
  if (language == CardLanguage::german) std::replace(text.begin(), text.end(), '.', ',');
  return text;
}

std::string in_unit(double value, ReportUnit unit, CardLanguage language) {
  switch (unit) {
    case ReportUnit::hours:
      return print_tenths(value, language) + " h";
    case ReportUnit::share:
      return print_tenths(100 * value, language) + " %";
    default:
      return fmt::format("{}", std::llround(value));
  }
}

ReportCell cell(std::string text) { return {std::move(text)}; }
ReportCell cell(double value, ReportUnit unit, CardLanguage language) {
  return {in_unit(value, unit, language), value, unit};
}

ReportCell figure_cell(const FigureValueView& figure, ReportUnit unit, const ReportContext& at) {
  if (figure.value) return cell(*figure.value, unit, at.language);
  if (figure.none) {
    const auto why = formats::parse_word<month::NoValue>(*figure.none);
    HW_ASSERT(why.has_value(), "the service says why in a word of its own");
    return cell(std::string{word_of(*why, at.language)});
  }
  const std::string low = in_unit(figure.low.value_or(0), unit, at.language);
  if (!figure.high) return cell(fmt::format(fmt::runtime(at.words.from), low));
  const std::string high = in_unit(*figure.high, unit, at.language);
  return cell(low == high ? low : fmt::format(fmt::runtime(at.words.range), low, high));
}

month::FigureKey key_of(const service::MonthFigureView& figure) {
  const auto key = formats::parse_word<month::FigureKey>(figure.key);
  HW_ASSERT(key.has_value(), "the service names its figures by their keys");
  return *key;
}

ReportTable figures_table(const ReportContext& at) {
  const MonthWords& words = at.words;
  ReportTable table{
      std::string{words.figures}, {{std::string{words.figure}, 3}, {std::string{words.value}, 2.2, true}}, {}, {}};
  if (at.month.sums_before) table.columns.push_back({std::string{words.before}, 2.2, true});
  for (const auto& figure : at.month.figures) {
    const month::FigureKey key = key_of(figure);
    const ReportUnit unit = figure.unit == "h" ? ReportUnit::hours : ReportUnit::share;
    std::string title{note_in(key, at.language).title};
    if (key == month::FigureKey::mtbf_by_failures && figure.now.at_least) {
      title += " (" +
               fmt::format(fmt::runtime(words.bound), std::llround(100 * at.month.confidence),
                           in_unit(*figure.now.at_least, ReportUnit::hours, at.language)) +
               ")";
    }
    std::vector<ReportCell> row{cell(std::move(title)), figure_cell(figure.now, unit, at)};
    if (at.month.sums_before) row.push_back(figure.before ? figure_cell(*figure.before, unit, at) : cell(""));
    table.rows.push_back(std::move(row));
  }
  return table;
}

// A sum by its name.
struct SumLine {
  std::string_view title;
  double value;
  double before;
  ReportUnit unit;
};

std::vector<SumLine> sum_lines(const ReportContext& at) {
  const MonthWords& words = at.words;
  const month::MonthSums& now = at.month.sums;
  const month::MonthSums before = at.month.sums_before.value_or(month::MonthSums{});
  const auto hours = [&](std::string_view title, double month::MonthSums::*sum) {
    return SumLine{title, now.*sum, before.*sum, ReportUnit::hours};
  };
  const auto count = [&](std::string_view title, int month::MonthSums::*sum) {
    return SumLine{title, static_cast<double>(now.*sum), static_cast<double>(before.*sum), ReportUnit::whole};
  };
  const auto cost = [&](std::string_view title, double month::MonthSums::*sum) {
    return SumLine{title, now.*sum, before.*sum, ReportUnit::whole};
  };
  using month::MonthSums;
  return {hours(words.planned, &MonthSums::planned_h),
          hours(words.operating, &MonthSums::operating_h),
          hours(words.unknown, &MonthSums::unknown_h),
          hours(words.powered, &MonthSums::powered_h),
          hours(words.powered_unknown, &MonthSums::powered_unknown_h),
          count(words.failures, &MonthSums::failures),
          hours(words.between, &MonthSums::between_h),
          hours(words.to_repair, &MonthSums::repair_h),
          hours(words.corrective, &MonthSums::corrective_h),
          hours(words.stops_h, &MonthSums::stops_h),
          hours(words.work, &MonthSums::work_h),
          hours(words.work_in_stops, &MonthSums::work_in_stops_h),
          count(words.tasks_done, &MonthSums::tasks_done),
          count(words.in_time, &MonthSums::tasks_done_in_time),
          count(words.overdue_undone, &MonthSums::tasks_overdue_undone),
          count(words.turns, &MonthSums::turns),
          count(words.turns_walked, &MonthSums::turns_walked),
          cost(words.care_cost, &MonthSums::care_cost),
          cost(words.failure_cost, &MonthSums::failure_cost)};
}

ReportTable sums_table(const ReportContext& at) {
  const MonthWords& words = at.words;
  ReportTable table{
      std::string{words.sums}, {{std::string{words.sum}, 3}, {std::string{words.value}, 2.2, true}}, {}, {}};
  if (at.month.sums_before) table.columns.push_back({std::string{words.before}, 2.2, true});
  for (const SumLine& line : sum_lines(at)) {
    std::vector<ReportCell> row{cell(fmt::format(fmt::runtime(line.title), at.month.currency)),
                                cell(line.value, line.unit, at.language)};
    if (at.month.sums_before) row.push_back(cell(line.before, line.unit, at.language));
    table.rows.push_back(std::move(row));
  }
  return table;
}

ReportTable machines_table(const ReportContext& at) {
  const MonthWords& words = at.words;
  ReportTable table{std::string{words.machines},
                    {{std::string{words.machine}, 2},
                     {std::string{words.stood}, 1, true},
                     {std::string{words.failures}, 1, true},
                     {std::string{words.ran}, 1, true},
                     {std::string{words.not_known}, 1, true}},
                    {},
                    {}};
  for (const auto& one : at.month.machines) {
    table.rows.push_back({cell(at.machine(one.machine)), cell(one.stood_h, ReportUnit::hours, at.language),
                          cell(one.sums.failures, ReportUnit::whole, at.language),
                          cell(one.sums.operating_h, ReportUnit::hours, at.language),
                          cell(one.sums.unknown_h, ReportUnit::hours, at.language)});
  }
  return table;
}

ReportTable failures_table(const ReportContext& at) {
  const MonthWords& words = at.words;
  ReportTable table{std::string{words.failures},
                    {{std::string{words.machine}, 2},
                     {std::string{words.found}, 1.5},
                     {std::string{words.what}, 4},
                     {std::string{words.stood}, 1, true},
                     {std::string{words.note}, 2}},
                    {},
                    std::string{words.no_failures}};
  for (const auto& one : at.month.failures) {
    const std::string_view note = one.goes_on ? words.goes_on : one.of_month ? "" : words.earlier;
    table.rows.push_back({cell(at.machine(one.machine)), cell(at.day(one.found_at)), cell(one.what),
                          cell(one.stood_h, ReportUnit::hours, at.language), cell(std::string{note})});
  }
  return table;
}

ReportTable stops_table(const ReportContext& at) {
  const MonthWords& words = at.words;
  ReportTable table{std::string{words.stops},
                    {{std::string{words.machine}, 2},
                     {std::string{words.day}, 1.5},
                     {std::string{words.stood}, 1, true},
                     {std::string{words.tasks}, 1}},
                    {},
                    std::string{words.no_stops}};
  for (const auto& one : at.month.stops) {
    table.rows.push_back({cell(at.machine(one.machine)), cell(print_day(one.on, at.language)),
                          cell(one.stood_h, ReportUnit::hours, at.language),
                          cell(fmt::format(fmt::runtime(words.done_of), one.done, one.of))});
  }
  return table;
}

ReportTable works_table(const ReportContext& at) {
  const MonthWords& words = at.words;
  ReportTable table{std::string{words.works},
                    {{std::string{words.machine}, 2},
                     {std::string{words.task}, 4},
                     {std::string{words.day}, 1.6},
                     {std::string{words.who}, 1.6},
                     {std::string{words.minutes}, 1, true},
                     {std::string{words.note}, 2.4}},
                    {},
                    std::string{words.no_work}};
  for (const auto& one : at.month.works) {
    std::string note = one.measured ? "" : std::string{words.planned_minutes};
    if (!one.in_time) note += (note.empty() ? "" : "; ") + std::string{words.late};
    table.rows.push_back({cell(at.machine(one.machine)), cell(one.title), cell(at.day(one.at)), cell(one.by),
                          cell(one.minutes, ReportUnit::minutes, at.language), cell(std::move(note))});
  }
  return table;
}

ReportTable overdue_table(const ReportContext& at) {
  const MonthWords& words = at.words;
  ReportTable table{std::string{words.overdue},
                    {{std::string{words.machine}, 2}, {std::string{words.task}, 4}, {std::string{words.note}, 2}},
                    {},
                    std::string{words.no_overdue}};
  for (const auto& one : at.month.overdue) {
    table.rows.push_back({cell(at.machine(one.machine)), cell(one.title),
                          cell(one.of_month ? std::string{} : std::string{words.since_before})});
  }
  return table;
}

ReportTable definitions_table(const ReportContext& at) {
  const MonthWords& words = at.words;
  ReportTable table{std::string{words.definitions},
                    {{std::string{words.figure}, 2},
                     {std::string{words.means}, 4},
                     {std::string{words.formula}, 2},
                     {std::string{words.source}, 4}},
                    {},
                    {}};
  for (const auto& figure : at.month.figures) {
    const month::FigureNote note = note_in(key_of(figure), at.language);
    const auto said = [](std::string_view form, std::string_view text) {
      return fmt::format(fmt::runtime(form), text);
    };
    table.rows.push_back(
        {cell(std::string{note.title}), cell(std::string{note.definition}), cell(std::string{note.formula}),
         cell(fmt::format("{}; {}; {}; {}", note.standard.edition, said(words.confirmed, note.standard.confirmed),
                          said(words.memory, note.standard.from_memory), said(words.check, note.standard.check)))});
  }
  return table;
}

// "Test plant, Mill 1; until Thu 26 Nov 2026".
std::string subtitle_of(const ReportContext& at) {
  std::string text = at.names.plant;
  if (at.month.machine) text += ", " + at.machine(*at.month.machine);
  if (at.month.kind) text += ", " + *at.month.kind;
  return text + "; " + fmt::format(fmt::runtime(at.words.until), print_day(at.month.last, at.language));
}

}  // namespace

Report month_report(const service::MonthView& month, const ReportNames& names, CardLanguage language) {
  const ReportContext at{month, names, language, month_words(language)};
  return {fmt::format(fmt::runtime(at.words.heading), print_month_name(month.month, language)),
          subtitle_of(at),
          std::string{at.words.page},
          std::string{at.words.continued},
          {figures_table(at), sums_table(at), machines_table(at), failures_table(at), stops_table(at), works_table(at),
           overdue_table(at), definitions_table(at)}};
}

}  // namespace hw::sheets
