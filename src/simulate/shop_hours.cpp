#include "src/simulate/shop_hours.h"

#include <algorithm>

namespace hw::simulate {

namespace {

constexpr int day_begins_minute = 4 * 60;

ManSpan span_between(const Zone& zone, LocalDate date, int from_minute, int to_minute) {
  const Instant begin = begin_of_floor_day(zone, date);
  const auto since = [&](int minute) {
    return static_cast<std::int32_t>((zone.at(date, minute) - begin).ns / 1'000'000);
  };
  return {since(from_minute), since(to_minute)};
}

}  // namespace

Instant begin_of_floor_day(const Zone& zone, LocalDate date) { return zone.at(date, day_begins_minute); }

LocalDate floor_day_of(const Zone& zone, Instant at) {
  const LocalDate date = zone.date_of(at);
  return at < begin_of_floor_day(zone, date) ? date - 1 : date;
}

bool is_working_day(const FloorPlan& plan, LocalDate date) {
  const auto& closed = plan.closed_on;
  return iso_weekday(date) <= 5 && std::find(closed.begin(), closed.end(), date) == closed.end();
}

std::vector<ManSpan> manned_spans(const Zone& zone, LocalDate date, int shifts) {
  std::vector<ManSpan> spans{span_between(zone, date, 6 * 60, 9 * 60 + 30), span_between(zone, date, 10 * 60, 14 * 60)};
  if (shifts < 2) return spans;
  spans.push_back(span_between(zone, date, 14 * 60 + 5, 18 * 60));
  spans.push_back(span_between(zone, date, 18 * 60 + 30, 22 * 60));
  return spans;
}

std::vector<ManSpan> overtime_spans(const Zone& zone, LocalDate date) {
  return {span_between(zone, date, 6 * 60, 12 * 60)};
}

}  // namespace hw::simulate
