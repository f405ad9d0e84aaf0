#pragma once
// What the service tells of due dates and of the day's decisions, in the words and fields of api/openapi.yaml: one
// struct for one schema there.

#include <optional>
#include <string>
#include <vector>

#include "src/service/stop_views.h"

namespace hw::service {

struct ClosedDayView {
  LocalDate on;
  std::string why;
};
BOOST_DESCRIBE_STRUCT(ClosedDayView, (), (on, why))

// The first day by whose end the interval is used up.
struct ForecastView {
  OrNull<LocalDate> first;   // 10 %
  OrNull<LocalDate> median;  // 50 %
  OrNull<LocalDate> last;    // 90 %
  OrNull<LocalDate> overdue_median;
  std::string leads;
  std::optional<std::string> refused;
  std::optional<Saying> refusal = {};  // what `refused` says
};
BOOST_DESCRIBE_STRUCT(ForecastView, (), (first, median, last, overdue_median, leads, refused, refusal))

struct HorizonTaskView {
  std::string task;
  std::string title;
  std::string assembly;
  std::string skill;
  std::string energy;
  double minutes = 0;
  std::string state;
  ForecastView forecast;
};
BOOST_DESCRIBE_STRUCT(HorizonTaskView, (), (task, title, assembly, skill, energy, minutes, state, forecast))

struct HorizonMachineView {
  std::string machine;
  std::string name;
  std::string kind;
  std::string cell;
  std::vector<HorizonTaskView> tasks;
};
BOOST_DESCRIBE_STRUCT(HorizonMachineView, (), (machine, name, kind, cell, tasks))

struct HorizonView {
  Instant now;
  LocalDate today;
  std::vector<ClosedDayView> closed;
  std::vector<ShiftView> shifts;
  std::vector<StopView> stops;  // the agreed ones, by when they begin
  std::vector<HorizonMachineView> machines;
};
BOOST_DESCRIBE_STRUCT(HorizonView, (), (now, today, closed, shifts, stops, machines))

struct QuantilesView {
  OrNull<LocalDate> p05, p10, p25, p50, p75, p90, p95;
};
BOOST_DESCRIBE_STRUCT(QuantilesView, (), (p05, p10, p25, p50, p75, p90, p95))

struct UsedDayView {
  LocalDate date;
  double used = 0;
};
BOOST_DESCRIBE_STRUCT(UsedDayView, (), (date, used))

struct DueChanceView {
  LocalDate date;
  double chance = 0;
};
BOOST_DESCRIBE_STRUCT(DueChanceView, (), (date, chance))

struct LevelAheadView {
  int days = 0;
  double per_day = 0;
  double spread = 0;
};
BOOST_DESCRIBE_STRUCT(LevelAheadView, (), (days, per_day, spread))

struct TriggerWorkingView {
  std::optional<std::string> counter;
  std::optional<std::string> calendar;
  std::optional<std::string> unit;
  std::optional<double> left;
  std::optional<double> used_today;
  QuantilesView quantiles;
  std::string basis;
  std::optional<std::vector<UsedDayView>> history;
  std::optional<std::vector<DueChanceView>> chances;
  std::optional<std::vector<double>> weekdays;
  std::optional<std::vector<LevelAheadView>> ahead;
  std::optional<double> mean_per_day;
  std::optional<int> known_days;
  std::optional<int> unknown_days;
  std::optional<double> memory_days;
  std::optional<double> season_weight;
  std::optional<int> idle_days;
  std::optional<LocalDate> change_from;
  std::optional<double> change_factor;
  std::optional<std::vector<std::string>> lent_by;
  std::optional<std::string> refused;
  std::optional<Saying> refusal = {};
  std::optional<LocalDate> first_on;
  std::optional<LocalDate> last_on;
  std::optional<std::string> reading;
  std::optional<std::string> of;
  std::optional<std::string> limit;
  std::optional<double> limit_at;
  std::optional<double> last_value;
  std::optional<LocalDate> read_on;
};
BOOST_DESCRIBE_STRUCT(TriggerWorkingView, (),
                      (counter, calendar, unit, left, used_today, quantiles, basis, history, chances, weekdays, ahead,
                       mean_per_day, known_days, unknown_days, memory_days, season_weight, idle_days, change_from,
                       change_factor, lent_by, refused, refusal, first_on, last_on, reading, of, limit, limit_at,
                       last_value, read_on))

struct ForecastWorkingView {
  std::string machine;
  std::string task;
  QuantilesView quantiles;
  std::vector<TriggerWorkingView> triggers;
};
BOOST_DESCRIBE_STRUCT(ForecastWorkingView, (), (machine, task, quantiles, triggers))

struct NaiveLossView {
  std::string name;
  double loss = 0;
};
BOOST_DESCRIBE_STRUCT(NaiveLossView, (), (name, loss))

struct BacktestRowView {
  int horizon_days = 0;
  int forecasts = 0;
  int inside80 = 0;
  double width_days = 0;
  double loss = 0;
  std::vector<NaiveLossView> naive;
};
BOOST_DESCRIBE_STRUCT(BacktestRowView, (), (horizon_days, forecasts, inside80, width_days, loss, naive))

struct BacktestView {
  std::string machine;
  std::string counter;
  std::string unit;
  int days = 0;
  int last = 0;           // of the latest forecasts that came to an end, at most 50, ...
  int last_inside80 = 0;  // ... how many came true inside the 80 % range
  std::optional<std::string> refused;
  std::optional<Saying> refusal = {};
  std::vector<BacktestRowView> rows;
};
BOOST_DESCRIBE_STRUCT(BacktestView, (), (machine, counter, unit, days, last, last_inside80, refused, refusal, rows))

struct UseChangeView {
  std::string id;
  OrNull<std::string> machine;
  LocalDate from;
  std::optional<LocalDate> until;
  double factor = 1;
  std::string why;
  std::string by;
  Instant at;
  bool withdrawn = false;
};
BOOST_DESCRIBE_STRUCT(UseChangeView, (), (id, machine, from, until, factor, why, by, at, withdrawn))

struct UseChangesView {
  std::vector<UseChangeView> changes;
};
BOOST_DESCRIBE_STRUCT(UseChangesView, (), (changes))

}  // namespace hw::service
