#include "src/service/known_readings.h"

#include <algorithm>

#include "src/service/reading_triggers.h"

namespace hw::service {
namespace {

using condition::LimitSide;
using due::ReadingDirection;

bool leads_to(ReadingDirection direction, const due::ReadingLimit& limit) {
  return direction == (limit.side == LimitSide::above ? ReadingDirection::rising : ReadingDirection::falling);
}

// A last value exactly on the limit is within it, and crosses it with the next step.
LimitCrossing crossing_of(const std::vector<due::DatedReading>& days, const due::ReadingLimit& limit) {
  LimitCrossing crossing{limit, is_beyond(limit, days.back().value)};
  if (crossing.is_beyond) return crossing;
  if (const auto due = due::reading_due(days, limit.at, limit.side)) crossing.days = due::quantiles(*due);
  return crossing;
}

std::vector<LimitCrossing> crossings_ahead(const KnownReading& known, const catalogue::TaskReading& reading) {
  std::vector<LimitCrossing> ahead;
  if (!known.trend) return ahead;
  for (const due::ReadingLimit& limit : due::limits_of(reading)) {
    if (!leads_to(known.trend->direction, limit)) continue;
    LimitCrossing crossing = crossing_of(known.days, limit);
    if (!crossing.is_beyond) ahead.push_back(crossing);
  }
  if (known.trend->direction == ReadingDirection::falling) std::reverse(ahead.begin(), ahead.end());
  return ahead;
}

std::vector<due::DatedReading> dated(const std::vector<ReadRecord>& series, const Zone& zone) {
  std::vector<due::DatedReading> readings;
  for (const ReadRecord& one : series) readings.push_back({zone.date_of(one.at), one.value});
  return readings;
}

std::shared_ptr<const KnownReading> learn(const std::vector<ReadRecord>& series, const Zone& zone,
                                          const catalogue::TaskReading& reading) {
  auto days = due::days_of(dated(series, zone));
  auto trend = due::trend_of(days);
  KnownReading known{.values = {}, .last = {}, .days = std::move(days), .trend = std::move(trend)};
  for (const ReadRecord& one : series) known.values.push_back({one.at, one.value});
  if (!series.empty()) known.last = series.back();
  known.ahead = crossings_ahead(known, reading);
  return std::make_shared<const KnownReading>(std::move(known));
}

}  // namespace

std::vector<LimitCrossing> crossings_of(const std::vector<due::DatedReading>& days,
                                        const catalogue::TaskReading& reading) {
  std::vector<LimitCrossing> crossings;
  if (days.size() < due::crossing_readings_min) return crossings;
  for (const due::ReadingLimit& limit : due::limits_of(reading)) crossings.push_back(crossing_of(days, limit));
  return crossings;
}

Result<std::shared_ptr<const KnownReading>> KnownReadings::of(Store& store, const Zone& zone, std::string_view machine,
                                                              const catalogue::Task& task,
                                                              const catalogue::TaskReading& reading) const {
  const std::lock_guard guard(mutex_);
  auto& kept = by_task_[task.key][reading.what];
  if (kept) return kept;
  HW_TAKE(series, read_series(store, machine, task, reading));
  kept = learn(series, zone, reading);
  return kept;
}

Result<std::shared_ptr<const ReadingDue>> KnownReadings::due_since(Store& store, const Zone& zone,
                                                                   const ReadingPlace& place,
                                                                   catalogue::LimitKind limit, Instant since) const {
  const DueKey key{place.reading.what, limit, since};
  {
    const std::lock_guard guard(mutex_);
    if (const auto& kept = dues_[place.task.key][key]) return kept;
  }
  HW_TAKE(known, of(store, zone, place.machine, place.task, place.reading));
  auto due = std::make_shared<const ReadingDue>(
      reading_due_since(known->values, zone, since, limits_of(place.reading, limit)));
  const std::lock_guard guard(mutex_);
  return dues_[place.task.key][key] = std::move(due);
}

void KnownReadings::forget(const std::string& task) {
  const std::lock_guard guard(mutex_);
  dues_.erase(task);
  by_task_.erase(task);
}

}  // namespace hw::service
