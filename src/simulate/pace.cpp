#include "src/simulate/pace.h"

#include <cstdlib>

#include "src/simulate/shop_hours.h"

namespace hw::simulate {

namespace {

// People have come back from their break at 10:00.
constexpr int middle_of_early_shift_minute = 10 * 60 + 45;
constexpr int days_looked_at = 40;  // no works holiday is longer

// People have worked for half an hour and go on for an hour without a break.
bool is_full_work(const FloorPlan& plan, Instant at) {
  const LocalDate date = floor_day_of(plan.zone, at);
  if (!is_working_day(plan, date)) return false;
  const std::int64_t at_ms = (at - begin_of_floor_day(plan.zone, date)).ns / 1'000'000;
  const auto spans = manned_spans(plan.zone, date, 2);
  return std::any_of(spans.begin(), spans.end(), [&](const ManSpan& span) {
    return span.begin_ms + 30 * 60'000 <= at_ms && at_ms <= span.end_ms - 60 * 60'000;
  });
}

}  // namespace

Duration ahead_for_full_work(const FloorPlan& plan, Instant now) {
  if (is_full_work(plan, now)) return {};
  const LocalDate today = plan.zone.date_of(now);
  Duration best = Duration::hours(24 * days_looked_at);
  for (int day = -days_looked_at; day <= days_looked_at; ++day) {
    if (!is_working_day(plan, today + day)) continue;
    const Duration ahead = plan.zone.at(today + day, middle_of_early_shift_minute) - now;
    if (std::abs(ahead.ns) < std::abs(best.ns)) best = ahead;
  }
  return best;
}

void tell_history(const Floor& floor, std::size_t machine, Instant from, Instant to, Duration floor_ahead,
                  Detail detail, const std::function<void(std::span<const counters::Observation>)>& out) {
  const Machine& teller = floor.machines().at(machine);
  std::vector<counters::Observation> piece;
  const auto pass_on = [&](std::span<const Event> events) {
    piece.clear();
    for (const Event& event : events) {
      piece.push_back(observation_of(teller, event));
      piece.back().at = piece.back().at - floor_ahead;
    }
    if (!piece.empty()) out(piece);
  };
  const Instant begin = std::max(from + floor_ahead, floor.begin_of_first_day());
  pass_on(floor.standing(machine, begin));
  std::vector<Event> events;
  for (Instant at = begin; at < to + floor_ahead;) {
    const Floor::Day day = floor.day_of(machine, at, detail);
    events.clear();
    for (const Event& event : day.events) {
      if (event.arrives_at >= at && event.arrives_at < to + floor_ahead) events.push_back(event);
    }
    pass_on(events);
    at = day.end;
  }
}

}  // namespace hw::simulate
