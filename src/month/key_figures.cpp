#include "src/month/key_figures.h"

#include <algorithm>

#include "src/life/failure_rate.h"

namespace hw::month {
namespace {

KeyFigure no_value(FigureKey key, NoValue why) {
  KeyFigure figure{key};
  figure.none = why;
  return figure;
}

// A value where both ends are the same, else the range.
KeyFigure between(FigureKey key, double low, double high) {
  KeyFigure figure{key};
  if (high > low) {
    figure.low = low;
    figure.high = high;
  } else {
    figure.value = low;
  }
  return figure;
}

KeyFigure share(FigureKey key, double part, double whole, NoValue why_none) {
  if (whole <= 0) return no_value(key, why_none);
  return between(key, part / whole, part / whole);
}

KeyFigure availability(const MonthSums& sums) {
  constexpr auto key = FigureKey::availability;
  if (sums.planned_h <= 0) return no_value(key, NoValue::nothing_planned);
  if (sums.operating_h <= 0 && sums.unknown_h > 0) return no_value(key, NoValue::no_hours);
  if (sums.operating_h > sums.planned_h * (1 + 1e-9)) return no_value(key, NoValue::more_than_planned);
  const double most_h = std::min(sums.planned_h, sums.operating_h + sums.unknown_h);
  return between(key, sums.operating_h / sums.planned_h, std::max(most_h, sums.operating_h) / sums.planned_h);
}

KeyFigure technical_availability(const MonthSums& sums) {
  constexpr auto key = FigureKey::technical_availability;
  const auto with = [&](double between_h) { return between_h / (between_h + sums.repair_h); };
  if (sums.between_h <= 0) return no_value(key, NoValue::no_hours);
  return between(key, with(sums.between_h), with(sums.between_h + sums.unknown_h));
}

// FE + 1 of each machine, added up.
double periods_of(const MonthSums& sums) { return sums.failures + std::max(1, sums.machines); }

KeyFigure mean_between(FigureKey key, const MonthSums& sums, double divisor) {
  KeyFigure figure = sums.failures == 0
                         ? no_value(key, NoValue::no_failure)
                         : between(key, sums.between_h / divisor, (sums.between_h + sums.unknown_h) / divisor);
  return figure;
}

KeyFigure mtbf_by_failures(const MonthSums& sums) {
  KeyFigure figure = mean_between(FigureKey::mtbf_by_failures, sums, sums.failures);
  // Unknown time can only make it longer, so the bound holds all the more.
  if (sums.between_h > 0) {
    figure.at_least = life::mean_between_at_least(sums.between_h, sums.failures, life::WatchEnd::at_a_time, confidence);
  }
  return figure;
}

KeyFigure mean_repair(FigureKey key, const MonthSums& sums, double divisor) {
  if (sums.failures == 0) return no_value(key, NoValue::no_failure);
  KeyFigure figure{key};
  // A repair that goes on is longer than what is known of it.
  (sums.repairs_going_on > 0 ? figure.low : figure.value) = sums.repair_h / divisor;
  return figure;
}

}  // namespace

std::vector<KeyFigure> key_figures(const MonthSums& sums) {
  const double all_tasks = sums.tasks_done + sums.tasks_overdue_undone;
  return {
      availability(sums),
      technical_availability(sums),
      mtbf_by_failures(sums),
      mean_between(FigureKey::mtbf_by_iso_22400, sums, periods_of(sums)),
      mean_repair(FigureKey::mttr_by_failures, sums, sums.failures),
      mean_repair(FigureKey::mttr_by_iso_22400, sums, periods_of(sums)),
      share(FigureKey::corrective_ratio, sums.corrective_h, sums.corrective_h + sums.stops_h, NoValue::nothing_stood),
      share(FigureKey::planned_share, sums.work_in_stops_h, sums.work_h, NoValue::no_work),
      share(FigureKey::tasks_in_time, sums.tasks_done_in_time, all_tasks, NoValue::no_task),
      share(FigureKey::rounds_walked, sums.turns_walked, sums.turns, NoValue::no_round),
      share(FigureKey::failure_cost_share, sums.failure_cost, sums.care_cost + sums.failure_cost, NoValue::no_cost)};
}

}  // namespace hw::month
