#pragma once
// What the service tells of a month, in the words and fields of api/openapi.yaml: one struct for one schema there.

#include "src/month/month_sums.h"
#include "src/service/views.h"

namespace hw::month {

BOOST_DESCRIBE_STRUCT(MonthSums, (),
                      (machines, planned_h, operating_h, powered_h, unknown_h, powered_unknown_h, failures, between_h,
                       repair_h, repairs_going_on, corrective_h, stops_h, work_h, work_in_stops_h, tasks_done,
                       tasks_done_in_time, tasks_overdue_undone, turns, turns_walked, care_cost, failure_cost))

}  // namespace hw::month

namespace hw::service {

// What a figure rests on: condition::StandardNote.
struct FigureSourceView {
  std::string edition;
  std::string confirmed;
  std::string memory;
  std::string check;
};
BOOST_DESCRIBE_STRUCT(FigureSourceView, (), (edition, confirmed, memory, check))

struct FigureValueView {
  OrNull<double> value;
  std::optional<double> low;
  std::optional<double> high;
  std::optional<double> at_least;
  std::optional<std::string> none;
};
BOOST_DESCRIBE_STRUCT(FigureValueView, (), (value, low, high, at_least, none))

struct MonthFigureView {
  std::string key;
  std::string title;
  std::string unit;  // "1", "h"
  FigureValueView now;
  std::optional<FigureValueView> before;
  std::string definition;
  std::string formula;
  FigureSourceView source;
};
BOOST_DESCRIBE_STRUCT(MonthFigureView, (), (key, title, unit, now, before, definition, formula, source))

struct MonthMachineView {
  std::string machine;
  month::MonthSums sums;
  double stood_h = 0;
};
BOOST_DESCRIBE_STRUCT(MonthMachineView, (), (machine, sums, stood_h))

struct MonthFailureView {
  std::string finding;
  std::string machine;
  std::string what;
  Instant found_at;
  OrNull<Instant> settled_at;
  double stood_h = 0;  // within the month
  bool of_month = false;
  bool goes_on = false;
  std::optional<double> operating_h;  // the counter when it was found
};
BOOST_DESCRIBE_STRUCT(MonthFailureView, (),
                      (finding, machine, what, found_at, settled_at, stood_h, of_month, goes_on, operating_h))

struct MonthStopView {
  std::string stop;
  std::string machine;
  LocalDate on;
  Instant began_at;
  Instant ended_at;
  double stood_h = 0;  // within the month
  int done = 0;
  int of = 0;
};
BOOST_DESCRIBE_STRUCT(MonthStopView, (), (stop, machine, on, began_at, ended_at, stood_h, done, of))

struct MonthWorkView {
  std::string entry;
  std::string machine;
  std::string task;
  std::string title;
  std::string by;
  Instant at;
  double minutes = 0;
  bool measured = false;
  bool in_time = true;
  std::optional<std::string> stop;
};
BOOST_DESCRIBE_STRUCT(MonthWorkView, (), (entry, machine, task, title, by, at, minutes, measured, in_time, stop))

struct MonthOverdueView {
  std::string machine;
  std::string task;
  std::string title;
  bool of_month = false;
};
BOOST_DESCRIBE_STRUCT(MonthOverdueView, (), (machine, task, title, of_month))

struct MonthDayView {
  LocalDate date;
  double planned_h = 0;
  double operating_h = 0;
  double unknown_h = 0;
  double powered_h = 0;
  double powered_unknown_h = 0;
};
BOOST_DESCRIBE_STRUCT(MonthDayView, (), (date, planned_h, operating_h, unknown_h, powered_h, powered_unknown_h))

struct MonthView {
  std::string month;
  LocalDate first;
  LocalDate last;
  Instant until;
  bool is_over = false;
  std::string began;  // the shop's first month
  std::string present;
  std::optional<std::string> machine;
  std::optional<std::string> kind;
  std::string currency;
  double labour_per_hour = 0;
  double confidence = 0;
  month::MonthSums sums;
  std::optional<month::MonthSums> sums_before;  // of the month before, where the shop had begun
  std::vector<MonthFigureView> figures;
  int findings_made = 0;
  int findings_settled = 0;
  std::vector<MonthMachineView> machines;  // those that stood longest first
  std::vector<MonthFailureView> failures;
  std::vector<MonthStopView> stops;
  std::vector<MonthWorkView> works;
  std::vector<MonthOverdueView> overdue;
  std::vector<EntryView> changes;                 // of tasks
  std::optional<std::vector<MonthDayView>> days;  // where the month is one machine's
};
BOOST_DESCRIBE_STRUCT(MonthView, (),
                      (month, first, last, until, is_over, began, present, machine, kind, currency, labour_per_hour,
                       confidence, sums, sums_before, figures, findings_made, findings_settled, machines, failures,
                       stops, works, overdue, changes, days))

}  // namespace hw::service
