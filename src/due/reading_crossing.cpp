#include "src/due/reading_crossing.h"

#include <algorithm>
#include <cmath>

namespace hw::due {
namespace {

constexpr int crossing_days_max = 3652;
constexpr int single_days = 400;  // beyond, the chance is looked at by the week
constexpr double chance_step = 1e-4;

std::vector<DatedReading> in_order(std::span<const DatedReading> readings) {
  std::vector<DatedReading> ordered(readings.begin(), readings.end());
  std::sort(ordered.begin(), ordered.end(), [](const DatedReading& a, const DatedReading& b) { return a.on < b.on; });
  return ordered;
}

Result<condition::DriftFit> drift_of(const std::vector<DatedReading>& ordered) {
  if (ordered.size() < crossing_readings_min) {
    return refuse(ErrorCode::bad_input, "at least {} readings are needed to foretell one, not {}",
                  crossing_readings_min, ordered.size());
  }
  std::vector<double> days, values;
  for (const DatedReading& reading : ordered) {
    if (!values.empty() && ordered[values.size() - 1].on == reading.on) {
      return refuse(ErrorCode::bad_input, "{}: two readings on one day; only one of them can be right",
                    print(reading.on));
    }
    days.push_back(reading.on - ordered.front().on);
    values.push_back(reading.value);
  }
  return condition::fit_drift(days, values);
}

}  // namespace

Result<DueDistribution> reading_due(std::span<const DatedReading> readings, double limit, condition::LimitSide side) {
  const std::vector<DatedReading> ordered = in_order(readings);
  HW_TAKE(drift, drift_of(ordered));
  if (!std::isfinite(limit)) return refuse(ErrorCode::bad_input, "limit: a finite number is needed");
  const DatedReading& last = ordered.back();
  const double left = side == condition::LimitSide::above ? limit - last.value : last.value - limit;
  if (left <= 0) return on_calendar(last.on);
  const condition::UncertainPassage passage(drift, left, side);
  DueDistribution due;
  double before = 0;
  for (int day = 1; day <= crossing_days_max && before < 1 - chance_step; day += day < single_days ? 1 : 7) {
    const double chance = passage.below(day);
    if (chance - before < chance_step) continue;
    due.push_back({last.on + day, chance});
    before = chance;
  }
  return due;
}

}  // namespace hw::due
