// How a meter passes from one moment to the next: the ends of days, and the end of patience with a silent feed.

#include <utility>

#include "libs/values/assert.h"
#include "src/counters/meter.h"

namespace hw::counters {

void Meter::advance(Instant at) {
  HW_ASSERT(at >= now_, "a meter's time does not go back");
  silent_from_ = fall_silent_before(at);
  while (counting_ && at >= day_end_) close_day();
  now_ = at;
  hold_until(at);
  if (silent_from_) take_mark(Mark::blind_end);
}

// Beyond the limit of silence nothing is known until something is heard again, which is at `at`.
std::optional<Instant> Meter::fall_silent_before(Instant at) {
  if (!settings_.silence_limit || !life_at_ || !counting_) return {};
  const Instant silent_from = *life_at_ + *settings_.silence_limit;
  if (at <= silent_from) return {};
  while (silent_from >= day_end_) close_day();
  now_ = silent_from;
  take_mark(Mark::blind_begin);
  account();
  return silent_from;
}

void Meter::close_day() {
  now_ = day_end_;
  bring_all_up_to_now();
  append_day(days_, day_);
  for (Fill& fill : fills_) {
    if (counters_[fill.slot].present) fill.end_day(now_, {day_, fill.slot, counters_[fill.slot].day});
  }
  for (Counter& counter : counters_) counter.before += std::exchange(counter.day, {});
  ++day_;
  day_end_ = settings_.zone.end_of(day_);
}

void Meter::append_day(std::vector<DayTally>& days, LocalDate date) const {
  const std::size_t kept = use_ == MeterUse::live ? counters_.size() : machine_counters;
  for (std::uint32_t slot = 0; slot < kept; ++slot) {
    if (counters_[slot].present) days.push_back({date, slot, today(slot)});
  }
}

void Meter::hold_until(Instant time) {
  if (!life_at_ || time > *life_at_) life_at_ = time;
}

void Meter::fill_by(CounterKind kind, std::uint32_t item) {
  fills_.emplace_back(static_cast<std::uint32_t>(kind), item);
}

void Meter::settle_fills() {
  for (Fill& fill : fills_) {
    if (counters_[fill.slot].present) settle_fill(fill);
  }
}

void Meter::settle_fill(Fill& fill) {
  Counter& counter = counters_[fill.slot];
  const ItemState& own = items_[fill.item];
  const Duration running = counter.state == Truth::yes ? now_ - counter.since : Duration{};
  Fill::Moment moment{now_,
                      counter.state,
                      counter.before.counted_ns() + counter.day.counted_ns() + running.ns,
                      {},
                      own.heard_at == now_};
  if (!is_unknown(own.last_known)) moment.seconds = own.last_known;
  const auto filled_ns = fill.settle(moment);
  if (!filled_ns) return;
  std::int64_t today_ns = 0;
  for (const DayTally& row : fill.spread(*filled_ns, today_ns)) days_.push_back(row);
  counter.before.filled_ns += *filled_ns - today_ns;
  counter.day.filled_ns += today_ns;
}

std::vector<DayTally> Meter::take_days() { return std::exchange(days_, {}); }

std::vector<DayTally> Meter::day_so_far() const {
  std::vector<DayTally> days;
  append_day(days, day_);
  return days;
}

}  // namespace hw::counters
