#pragma once
// What a month's report says by itself, in each language; the words are those of the app's page.

#include <string>
#include <string_view>

#include "src/month/figure_notes.h"
#include "src/sheets/job_card.h"

namespace hw::sheets {

// One text each; where it holds {}, something is put in.
struct MonthWords {
  std::string_view heading;    // {}: the month
  std::string_view until;      // {}: the day
  std::string_view page;       // {} of {}
  std::string_view continued;  // {}: the table that goes on here
  std::string_view figures, figure, value, before;
  std::string_view range, from;  // {}: low, {}: high
  std::string_view bound;        // {}: percent, {}: hours
  std::string_view sums, sum;
  std::string_view planned, operating, unknown, powered, powered_unknown, between, to_repair, corrective, stops_h, work,
      work_in_stops, failures, tasks_done, in_time, overdue_undone, turns, turns_walked, care_cost, failure_cost;
  std::string_view machines, machine, stood, ran, not_known;
  std::string_view no_failures, what, found, goes_on, earlier, note;
  std::string_view stops, no_stops, day, tasks, done_of;
  std::string_view works, no_work, task, who, minutes, planned_minutes, late;
  std::string_view overdue, no_overdue, since_before;
  std::string_view definitions, means, formula, source, confirmed, memory, check;
};

const MonthWords& month_words(CardLanguage language);

// "November 2026"; "11/2026" is nobody's way to say it.
std::string print_month_name(std::string_view month, CardLanguage language);

// What a figure is and rests on, in the language; title and definition of month::figure_notes in English.
month::FigureNote note_in(month::FigureKey key, CardLanguage language);
std::string_view word_of(month::NoValue why, CardLanguage language);

}  // namespace hw::sheets
