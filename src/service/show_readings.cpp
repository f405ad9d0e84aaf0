#include <algorithm>
#include <array>

#include "src/condition/reading_limits.h"
#include "src/service/entry_making.h"
#include "src/service/reading_lines.h"
#include "src/service/use_cases.h"
#include "src/service/use_rates_of.h"

namespace hw::service {
namespace {

std::string_view word_of(condition::ZoneRule rule) {
  constexpr std::array<std::string_view, 4> words{"one beyond 3", "two of 3 beyond 2", "four of 5 beyond 1",
                                                  "eight on a side"};
  return words.at(static_cast<std::size_t>(rule));
}

Result<const catalogue::TaskReading*> find_reading(const catalogue::Task& task, std::string_view what) {
  for (const catalogue::TaskReading& reading : task.readings) {
    if (reading.what == what) return &reading;
  }
  return refuse(ErrorCode::not_found,
                Saying{"no-reading", {{"title", task.title}, {"what", std::string{what.substr(0, 60)}}}},
                "\"{}\" has no reading \"{}\"", task.title, what.substr(0, 60));
}

std::vector<ReadingDayView> day_views(const KnownReading& known) {
  std::vector<ReadingDayView> views;
  for (const due::DatedReading& day : known.days) views.push_back({day.on, day.value, {}});
  if (!known.trend) return views;
  for (const condition::ZoneCall& call : known.trend->calls) {
    for (const std::size_t point : call.at) views.at(point - 1).out.emplace_back(word_of(call.rule));
  }
  return views;
}

ReadingChartView chart_view(const condition::IndividualsChart& chart) {
  return {chart.mean, chart.mr_bar, chart.sigma, chart.lcl, chart.ucl};
}

Result<ReadingTrendView> trend_view(const KnownReading& known, const std::string& direction) {
  std::vector<double> t, x;
  for (const due::DatedReading& day : known.days) {
    t.push_back(day.on - known.days.front().on);
    x.push_back(day.value);
  }
  HW_TAKE(drift, condition::fit_drift(t, x));
  const due::ReadingTrend& trend = *known.trend;
  return ReadingTrendView{.direction = direction,
                          .slope = trend.sen.slope,
                          .slope_low = trend.sen.slope_ci95[0],
                          .slope_high = trend.sen.slope_ci95[1],
                          .begins_at = trend.sen.intercept_from_medians,
                          .s = trend.kendall.S,
                          .p = trend.p,
                          .exact = trend.kendall.p_exact_one_sided.has_value(),
                          .drift = drift.nu,
                          .scatter = drift.sigma_unbiased};
}

std::vector<ReadingPointView> point_views(const std::vector<ReadRecord>& series,
                                          const catalogue::TaskReading& reading) {
  std::vector<ReadingPointView> views;
  for (const ReadRecord& one : series) {
    const auto state = word_of(condition::judge(reading, one.value).state);
    views.push_back({one.at, one.by, one.entry, one.stop, one.value, std::string{state}});
  }
  return views;
}

}  // namespace

Result<ReadingsView> show_readings(const OpenShop& shop, std::string_view key, Instant now) {
  const auto lock = shop.look();
  HW_TAKE(machine, shop.find(key));
  HW_TAKE(readings, reading_lines(shop, *machine));
  HW_TAKE(uses, use_lines(shop, *machine));
  return ReadingsView{now, machine->record.machine.key, std::move(readings), std::move(uses)};
}

Result<ReadingWorkingView> show_reading(const OpenShop& shop, std::string_view key, std::string_view task_key,
                                        std::string_view what, Instant now) {
  const auto lock = shop.look();
  HW_TAKE(machine, shop.find(key));
  HW_TAKE(record, find_task(*machine, task_key));
  HW_TAKE(reading, find_reading(record->task, what));
  HW_TAKE(line, reading_line(shop, *machine, record->task, *reading));
  HW_TAKE(series, read_series(shop.store(), key, record->task, *reading));
  HW_TAKE(known, machine->readings.of(shop.store(), shop.calendar().zone, key, record->task, *reading));
  ReadingWorkingView view{.now = now,
                          .machine = machine->record.machine.key,
                          .reading = std::move(line),
                          .points = point_views(series, *reading),
                          .days = day_views(*known),
                          .chart = {},
                          .trend = {},
                          .crossings = {}};
  if (!known->trend) return view;
  view.chart = chart_view(known->trend->chart);
  HW_TAKE(trend, trend_view(*known, *view.reading.direction));
  view.trend = std::move(trend);
  for (const LimitCrossing& one : crossings_of(known->days, *reading)) view.crossings.push_back(view_of(one));
  return view;
}

}  // namespace hw::service
