#include "src/simulate/day_events.h"

#include <algorithm>
#include <cmath>

#include "src/simulate/dice.h"

namespace hw::simulate {

namespace {

using counters::is_unknown;
using counters::unknown_value;

// A feed without speeds tells positions every two seconds while they change, so that it shows each motion whole.
constexpr std::int64_t position_period_ms = 2000;

// A phase, or a part of one, in which the feed is there or not.
struct Piece {
  std::int64_t begin_ms = 0;  // floor time
  std::int64_t end_ms = 0;
  std::size_t phase = 0;
  bool reaches = true;
};

bool is_lost_at(const std::vector<Span>& losses, std::int64_t at_ms) {
  return std::any_of(losses.begin(), losses.end(),
                     [&](const Span& s) { return s.begin_ms <= at_ms && at_ms < s.end_ms; });
}

// The first begin or end of a loss after `at`, or `end`.
std::int64_t next_turn_after(const std::vector<Span>& losses, std::int64_t at_ms, std::int64_t end_ms) {
  for (const Span& s : losses) {
    for (const std::int64_t turn : {s.begin_ms, s.end_ms}) {
      if (turn > at_ms) end_ms = std::min(end_ms, turn);
    }
  }
  return end_ms;
}

double on_or_off(bool is_on) { return is_on ? 1.0 : 0.0; }

class DayTeller {
 public:
  DayTeller(const Machine& machine, const DayScript& script, FeedQuality quality, Detail detail);
  DayEvents tell() &&;

 private:
  void choose_items(Detail detail);
  void begin_phase(std::size_t phase);
  void tell_phase(std::size_t phase);
  void tell_piece(const Piece& piece);
  void tell_between(const Piece& piece);
  void fall_silent(std::int64_t at_ms);
  void tell_changes(const Phase& phase, std::int64_t at_ms);
  void tell_positions(std::int64_t at_ms);
  void tell_timers(std::int64_t at_ms);
  void say(std::uint32_t item, double value, std::int64_t at_ms);
  bool differs(std::uint32_t item, double value) const;

  bool reaches(const Phase& phase, std::int64_t at_ms) const;
  std::int64_t end_of(std::size_t phase) const;
  double value_of(const Tells& tells, const Phase& phase) const;
  double position_at(std::size_t axis, std::int64_t at_ms) const;
  double timer_at(Timer timer, std::int64_t at_ms) const;
  void take_standing();

  const Machine& machine_;
  const DayScript& script_;
  const bool is_lossy_;
  const Detail detail_;
  const std::int64_t ahead_ms_;
  const std::int64_t timer_period_ms_;
  std::vector<std::uint32_t> plain_, positions_, timers_;  // the items that are told
  std::vector<double> last_;
  bool was_reached_ = false;
  std::vector<Event> events_;

  // The present phase.
  std::int64_t phase_begin_ms_ = 0;
  std::int64_t phase_end_ms_ = 0;
  TrueUse use_;  // at the phase's begin
  const Phase* phase_ = nullptr;
  std::array<std::int32_t, 3> from_um_{}, to_um_{};
};

DayTeller::DayTeller(const Machine& machine, const DayScript& script, FeedQuality quality, Detail detail)
    : machine_(machine),
      script_(script),
      is_lossy_(quality == FeedQuality::lossy),
      detail_(detail),
      ahead_ms_(is_lossy_ ? machine.traits.clock_ahead_ms : 0),
      timer_period_ms_(detail == Detail::full ? 10'000 : 600'000),
      last_(machine.tells.size(), unknown_value) {
  choose_items(detail);
  use_ = script.carry.use;
  to_um_ = script.carry.place_um;
}

void DayTeller::choose_items(Detail detail) {
  const bool is_full = detail == Detail::full;
  for (std::uint32_t i = 0; i < machine_.tells.size(); ++i) {
    const Signal signal = machine_.tells[i].signal;
    if (signal == Signal::timer) {
      timers_.push_back(i);
    } else if (signal == Signal::position) {
      if (is_full || !machine_.traits.has_feed_rates) positions_.push_back(i);
    } else if (is_full || (signal != Signal::spindle_load && signal != Signal::feed_override)) {
      plain_.push_back(i);
    }
  }
}

bool DayTeller::reaches(const Phase& phase, std::int64_t at_ms) const {
  if (!is_lossy_) return true;
  if (!phase.power_is_on && machine_.traits.falls_silent_when_off) return false;
  return !is_lost_at(script_.losses, at_ms);
}

std::int64_t DayTeller::end_of(std::size_t phase) const {
  return phase + 1 < script_.phases.size() ? script_.begin_ms + script_.phases[phase + 1].begin_ms : script_.end_ms;
}

double DayTeller::value_of(const Tells& tells, const Phase& phase) const {
  switch (tells.signal) {
    case Signal::availability:
      return 1.0;
    case Signal::power_state:
      return on_or_off(phase.power_is_on);
    case Signal::execution:
      return static_cast<double>(phase.execution);
    case Signal::controller_mode:
      return static_cast<double>(phase.mode);
    case Signal::part_count:
      return static_cast<double>(use_.parts);
    case Signal::system:
      return on_or_off(phase.has_fault);
    case Signal::path_feed:
      return phase.path_feed_um_s / 1000.0;
    case Signal::feed_override:
      return phase.override_percent;
    case Signal::spindle_speed:
      return phase.speed_rpm.at(tells.which);
    case Signal::spindle_load:
      return phase.load_percent.at(tells.which);
    case Signal::rotary_mode:
      return on_or_off(phase.contours);
    case Signal::angular_velocity:
      return phase.turn_deg_s;
    // Each moving axis bears a part of the path's speed; how much does not matter here.
    case Signal::axis_feed:
      return (phase.axes >> tells.which & 1U) != 0 ? phase.path_feed_um_s / (1000.0 * (1 << tells.which)) : 0.0;
    case Signal::position:
    case Signal::timer:
      break;
  }
  return unknown_value;
}

double DayTeller::position_at(std::size_t axis, std::int64_t at_ms) const {
  const std::int64_t length_ms = phase_end_ms_ - phase_begin_ms_;
  const std::int64_t way_um = to_um_.at(axis) - from_um_.at(axis);
  const std::int64_t gone_um = length_ms == 0 ? way_um : way_um * (at_ms - phase_begin_ms_) / length_ms;
  return static_cast<double>(from_um_.at(axis) + gone_um) / 1000.0;
}

Duration sum_for(Timer timer, const TrueUse& use) {
  switch (timer) {
    case Timer::total:
      return use.powered;
    case Timer::automatic:
      return use.automatic;
    case Timer::operating:
      return use.operating;
    case Timer::cutting:
      return use.cutting;
    case Timer::spindle:
      return use.spindle;
  }
  return {};
}

// What the counter had run before the floor began, in hours per hour of the whole: 60 % in automatic, and so on.
std::int64_t years_before_s(Timer timer, std::string_view key) {
  constexpr std::array<std::int64_t, 5> percent{100, 60, 50, 40, 45};
  const auto total_h = static_cast<std::int64_t>(4000 + hash_of(key) % 16'000);
  return total_h * 36 * percent.at(static_cast<std::size_t>(timer));
}

double DayTeller::timer_at(Timer timer, std::int64_t at_ms) const {
  TrueUse use = use_;
  if (phase_ != nullptr) add_use(use, *phase_, Duration::millis(at_ms - phase_begin_ms_));
  const std::int64_t run_s = sum_for(timer, use).ns / 1'000'000'000;
  const std::int64_t before_s = years_before_s(timer, machine_.entry.key);
  if (machine_.traits.timers != Timers::coarse) return static_cast<double>(before_s + run_s);
  const std::int64_t steps = run_s / 360;
  const double noise = steps % 3 == 0 ? 1e-8 : 0.0;
  return static_cast<double>(before_s + steps * 360) + noise;
}

bool DayTeller::differs(std::uint32_t item, double value) const {
  const double last = last_[item];
  if (is_unknown(last)) return true;
  const Signal signal = machine_.tells[item].signal;
  const bool is_feed = signal == Signal::path_feed || signal == Signal::axis_feed || signal == Signal::angular_velocity;
  if (detail_ == Detail::turns && is_feed) return (value != 0.0) != (last != 0.0);
  return value != last;
}

void DayTeller::say(std::uint32_t item, double value, std::int64_t at_ms) {
  last_[item] = value;
  events_.push_back({Instant::from_millis(at_ms), Instant::from_millis(at_ms + ahead_ms_), item, value});
}

// The agent says so, by its own clock.
void DayTeller::fall_silent(std::int64_t at_ms) {
  for (std::uint32_t i = 0; i < last_.size(); ++i) {
    if (is_unknown(last_[i])) continue;
    last_[i] = unknown_value;
    events_.push_back({Instant::from_millis(at_ms), Instant::from_millis(at_ms), i, unknown_value});
  }
}

void DayTeller::tell_positions(std::int64_t at_ms) {
  for (const std::uint32_t item : positions_) {
    const double value = position_at(machine_.tells[item].which, at_ms);
    if (differs(item, value)) say(item, value, at_ms);
  }
}

void DayTeller::tell_timers(std::int64_t at_ms) {
  for (const std::uint32_t item : timers_) {
    const double value = timer_at(static_cast<Timer>(machine_.tells[item].which), at_ms);
    if (differs(item, value)) say(item, value, at_ms);
  }
}

void DayTeller::tell_changes(const Phase& phase, std::int64_t at_ms) {
  for (const std::uint32_t item : plain_) {
    const double value = value_of(machine_.tells[item], phase);
    if (differs(item, value)) say(item, value, at_ms);
  }
  tell_positions(at_ms);
}

// Counters and positions tick on while nothing else changes.
void DayTeller::tell_between(const Piece& piece) {
  const std::int64_t none = piece.end_ms;
  const bool moves = is_feeding(*phase_) && !machine_.traits.has_feed_rates;
  std::int64_t tick =
      timers_.empty() ? none : (piece.begin_ms + timer_period_ms_ - 1) / timer_period_ms_ * timer_period_ms_;
  std::int64_t sample = none;
  if (moves) {
    const std::int64_t samples = (piece.begin_ms - phase_begin_ms_) / position_period_ms + 1;
    sample = phase_begin_ms_ + samples * position_period_ms;
  }
  while (std::min(tick, sample) < piece.end_ms) {
    if (tick <= sample) {
      tell_timers(tick);
      tick += timer_period_ms_;
    } else {
      tell_positions(sample);
      sample += position_period_ms;
    }
  }
}

void DayTeller::tell_piece(const Piece& piece) {
  if (!piece.reaches) {
    if (was_reached_) fall_silent(piece.begin_ms);
    was_reached_ = false;
    return;
  }
  tell_changes(*phase_, piece.begin_ms);
  if (!was_reached_) tell_timers(piece.begin_ms);
  was_reached_ = true;
  tell_between(piece);
}

void DayTeller::begin_phase(std::size_t phase) {
  phase_ = &script_.phases[phase];
  phase_begin_ms_ = script_.begin_ms + phase_->begin_ms;
  phase_end_ms_ = end_of(phase);
  use_.parts += phase_->ends_part ? 1 : 0;
  from_um_ = to_um_;
  to_um_ = place_after(*phase_, from_um_);
}

void DayTeller::tell_phase(std::size_t phase) {
  for (std::int64_t at = phase_begin_ms_; at < phase_end_ms_;) {
    const std::int64_t end = next_turn_after(script_.losses, at, phase_end_ms_);
    tell_piece({at, end, phase, reaches(*phase_, at)});
    at = end;
  }
}

// What had been said when the day began: the first phase is how the day before ended.
void DayTeller::take_standing() {
  was_reached_ = reaches(script_.phases.front(), script_.begin_ms - 1);
  if (!was_reached_) return;
  begin_phase(0);
  const std::int64_t last_tick_ms = (script_.begin_ms - 1) / timer_period_ms_ * timer_period_ms_;
  for (const std::uint32_t item : plain_) last_[item] = value_of(machine_.tells[item], *phase_);
  for (const std::uint32_t item : positions_) last_[item] = position_at(machine_.tells[item].which, phase_begin_ms_);
  for (const std::uint32_t item : timers_) {
    last_[item] = timer_at(static_cast<Timer>(machine_.tells[item].which), last_tick_ms);
  }
}

DayEvents DayTeller::tell() && {
  take_standing();
  DayEvents out{last_, {}};
  to_um_ = script_.carry.place_um;
  for (std::size_t phase = 0; phase < script_.phases.size(); ++phase) {
    begin_phase(phase);
    tell_phase(phase);
    add_use(use_, *phase_, Duration::millis(phase_end_ms_ - phase_begin_ms_));
  }
  out.events = std::move(events_);
  return out;
}

}  // namespace

DayEvents events_of(const Machine& machine, const DayScript& script, FeedQuality quality, Detail detail) {
  return DayTeller(machine, script, quality, detail).tell();
}

}  // namespace hw::simulate
