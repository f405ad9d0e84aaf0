#include "src/service/reading_triggers.h"

#include <algorithm>
#include <cmath>

namespace hw::service {
namespace {

using due::ReadingLimit;

bool is_beyond_any(const std::vector<ReadingLimit>& limits, double value) {
  return std::any_of(limits.begin(), limits.end(), [&](const ReadingLimit& one) { return is_beyond(one, value); });
}

double nearest_limit(const std::vector<ReadingLimit>& limits, double value) {
  const auto nearer = [&](const ReadingLimit& a, const ReadingLimit& b) {
    return std::abs(a.at - value) < std::abs(b.at - value);
  };
  return std::min_element(limits.begin(), limits.end(), nearer)->at;
}

double share_of_way(double first, double last, double limit) {
  const double way = limit - first;
  return way == 0 ? 0 : std::clamp((last - first) / way, 0.0, 0.99);
}

Error few_since(std::size_t days) {
  return Error{
      ErrorCode::bad_input,
      fmt::format("it was read on {} days since the task was last done; a date needs {}", days,
                  due::crossing_readings_min),
      Saying{"reading-few-since",
             {},
             {{"count", static_cast<double>(days)}, {"least", static_cast<double>(due::crossing_readings_min)}}}};
}

// What only scatters would meet any limit some day, as scatter is taken for wandering; so only a trend has a date.
bool leads_to_limit(const due::ReadingTrend& trend, const ReadingLimit& limit) {
  return trend.direction ==
         (limit.side == condition::LimitSide::above ? due::ReadingDirection::rising : due::ReadingDirection::falling);
}

void foretell(ReadingDue& due, const std::vector<due::DatedReading>& days, const std::vector<ReadingLimit>& limits) {
  if (days.size() < due::crossing_readings_min) {
    due.refused = few_since(days.size());
    return;
  }
  const auto trend = due::trend_of(days);
  for (const ReadingLimit& limit : limits) {
    if (!trend || !leads_to_limit(*trend, limit)) continue;
    if (auto side = due::reading_due(days, limit.at, limit.side)) due.due = std::move(*side);
  }
  if (due.due.empty()) {
    due.refused = Error{ErrorCode::bad_input, "its reading has no trend toward the limit", Saying{"reading-no-trend"}};
  }
}

}  // namespace

std::vector<ReadingLimit> limits_of(const catalogue::TaskReading& reading, catalogue::LimitKind kind) {
  std::vector<ReadingLimit> limits = due::limits_of(reading);
  std::erase_if(limits, [&](const ReadingLimit& one) { return one.kind != kind; });
  return limits;
}

ReadingDue reading_due_since(const std::vector<TimedValue>& values, const Zone& zone, Instant since,
                             const std::vector<ReadingLimit>& limits) {
  ReadingDue due;
  std::vector<due::DatedReading> readings;
  for (const TimedValue& one : values) {
    if (one.at <= since) continue;
    readings.push_back({zone.date_of(one.at), one.value});
    due.last = one;
    if (!due.beyond_on && is_beyond_any(limits, one.value)) {
      due.beyond_on = readings.back().on;
      due.limit_at = nearest_limit(limits, one.value);
    }
  }
  const auto days = due::days_of(readings);
  due.days_read = static_cast<int>(days.size());
  if (limits.empty()) return due;
  if (due.beyond_on) {
    due.due = due::on_calendar(*due.beyond_on);
    due.share = 1;
    return due;
  }
  due.limit_at = due.last ? nearest_limit(limits, due.last->value) : limits.front().at;
  if (!days.empty()) due.share = share_of_way(days.front().value, days.back().value, due.limit_at);
  foretell(due, days, limits);
  return due;
}

}  // namespace hw::service
