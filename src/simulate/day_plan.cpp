#include "src/simulate/day_plan.h"

#include <algorithm>

#include "src/simulate/kind_numbers.h"
#include "src/simulate/part_program.h"

namespace hw::simulate {

namespace {

constexpr std::int32_t minute_ms = 60'000;
// Nothing runs in the day's last hours, so that days fit together.
constexpr std::int32_t quiet_end_ms = 90 * minute_ms;

// Time in which people can work at the machine. What has begun may go on until `hard_end`.
struct Stretch {
  std::int32_t begin_ms = 0;
  std::int32_t end_ms = 0;
  std::int32_t hard_end_ms = 0;
};

// The manned spans less the breakdowns.
std::vector<ManSpan> less(const std::vector<ManSpan>& spans, const std::vector<ManSpan>& down) {
  std::vector<ManSpan> left;
  for (ManSpan span : spans) {
    for (const ManSpan& d : down) {
      if (d.end_ms <= span.begin_ms || d.begin_ms >= span.end_ms) continue;
      if (d.begin_ms > span.begin_ms) left.push_back({span.begin_ms, d.begin_ms});
      span.begin_ms = std::min(d.end_ms, span.end_ms);
    }
    if (span.begin_ms < span.end_ms) left.push_back(span);
  }
  return left;
}

// The first moment from `at` on that nothing running may pass.
std::int32_t hard_end_after(std::int32_t at_ms, const DayFrame& frame) {
  for (const ManSpan& d : frame.down) {
    if (d.begin_ms >= at_ms) return std::min(d.begin_ms, frame.length_ms - quiet_end_ms);
  }
  return frame.length_ms - quiet_end_ms;
}

std::vector<Stretch> stretches_of(const DayFrame& frame) {
  std::vector<Stretch> out;
  for (const ManSpan& span : less(frame.manned, frame.down)) {
    out.push_back({span.begin_ms, span.end_ms, hard_end_after(span.begin_ms, frame)});
  }
  return out;
}

class DayPlanner {
 public:
  DayPlanner(const Machine& machine, const DayFrame& frame, Dice dice)
      : traits_(machine.traits),
        numbers_(numbers_of(machine.entry.kind)),
        frame_(frame),
        dice_(dice),
        programs_(machine),
        day_(phases_) {}

  std::vector<Phase> plan();

 private:
  void work(const Stretch& stretch, bool is_first, bool is_last);
  void warm_up();
  void take_next_step(const Stretch& stretch);
  void set_up(const Stretch& stretch);
  std::int32_t between_ms(Range range_s) {
    return static_cast<std::int32_t>(dice_.between(range_s.min, range_s.max)) * 1000;
  }
  Phase at_rest() const;
  void switch_power(const Stretch& first, std::int32_t worked_until_ms);
  void break_down();

  const Traits& traits_;
  const KindNumbers& numbers_;
  const DayFrame& frame_;
  Dice dice_;
  ProgramMaker programs_;
  std::vector<Phase> phases_;
  PhaseWriter day_;
  PartProgram program_;
  std::int32_t set_up_left_ms_ = 0;
};

std::vector<Phase> DayPlanner::plan() {
  day_.allow_until(frame_.length_ms);
  day_.stay(at_rest());
  const std::vector<Stretch> stretches = stretches_of(frame_);
  program_ = programs_.draw(dice_);
  for (std::size_t i = 0; i < stretches.size(); ++i) work(stretches[i], i == 0, i + 1 == stretches.size());
  if (!stretches.empty() && traits_.is_off_at_night) switch_power(stretches.front(), day_.now_ms());
  break_down();
  return std::move(phases_);
}

Phase DayPlanner::at_rest() const {
  Phase rest;
  if (traits_.is_off_at_night) {
    rest.power_is_on = false;
    rest.execution = Execution::stopped;
  }
  return rest;
}

void DayPlanner::work(const Stretch& stretch, bool is_first, bool is_last) {
  day_.allow_until(stretch.hard_end_ms);
  day_.skip_to(stretch.begin_ms + between_ms({60, 600}));
  if (is_first) warm_up();
  while (day_.now_ms() < stretch.end_ms && !day_.is_full()) take_next_step(stretch);
  const std::int32_t alone_until_ms = stretch.end_ms + numbers_.unmanned_min * minute_ms;
  while (is_last && program_.parts_left > 0 && day_.now_ms() < alone_until_ms && !day_.is_full()) {
    programs_.run(program_, day_, dice_);
  }
  day_.stay(Phase{});
}

void DayPlanner::take_next_step(const Stretch& stretch) {
  if (program_.parts_left == 0 && set_up_left_ms_ == 0) {
    set_up_left_ms_ = between_ms(numbers_.set_up_min) * 60;
    program_ = programs_.draw(dice_);
  }
  if (set_up_left_ms_ > 0) return set_up(stretch);
  if (dice_.chance(20)) return day_.hold(Phase{}, between_ms({8 * 60, 45 * 60}));  // no material, no program, no one
  programs_.run(program_, day_, dice_);
}

// Spindle in three steps of speed while the axes travel, as is common practice after a cold night.
void DayPlanner::warm_up() {
  for (const int percent : {20, 50, 80}) {
    for (int i = 0; i < 10; ++i) {
      Phase phase;
      phase.execution = Execution::active;
      phase.speed_rpm[0] = numbers_.speed_rpm.max * percent / 100;
      phase.load_percent[0] = 4;
      phase.path_feed_um_s = i % 5 == 4 ? 0 : numbers_.rapid_um_s / 4;
      phase.axes = static_cast<std::uint8_t>(1 + i % 7);
      day_.hold(phase, between_ms({18, 24}));
    }
  }
  Phase done;
  done.execution = Execution::program_completed;
  day_.hold(done, between_ms({20, 120}));
}

// A piece of set-up: somebody thinks, jogs, touches off.
void DayPlanner::set_up(const Stretch& stretch) {
  const std::int32_t begin_ms = day_.now_ms();
  Phase phase;
  phase.mode = Mode::manual;
  day_.hold(phase, between_ms({60, 300}));
  phase.path_feed_um_s = static_cast<std::int32_t>(dice_.between(5'000, 60'000));
  phase.axes = static_cast<std::uint8_t>(1U << dice_.between(0, 2));
  day_.hold(phase, between_ms({4, 15}));
  if (dice_.chance(250)) {
    phase = {};
    phase.mode = Mode::manual_input;
    phase.execution = Execution::active;
    phase.speed_rpm[0] = 500;
    day_.hold(phase, between_ms({15, 40}));
  }
  set_up_left_ms_ = std::max(0, set_up_left_ms_ - (day_.now_ms() - begin_ms));
  if (set_up_left_ms_ == 0 || day_.now_ms() >= stretch.end_ms) day_.stay(Phase{});
}

// Off until somebody comes, off again when the last has gone.
void DayPlanner::switch_power(const Stretch& first, std::int32_t worked_until_ms) {
  const std::int32_t on_ms = first.begin_ms - between_ms({0, 900}) + 50;
  const std::int32_t off_ms =
      std::min(worked_until_ms + between_ms({300, 1800}), frame_.length_ms - quiet_end_ms + 5 * minute_ms);
  day_.allow_until(frame_.length_ms);
  day_.skip_to(off_ms);
  day_.stay(at_rest());
  cut_phase_at(phases_, on_ms);
  for (Phase& phase : phases_) {
    if (phase.begin_ms >= on_ms && phase.begin_ms < off_ms && !phase.power_is_on)
      phase = Phase{.begin_ms = phase.begin_ms};
  }
}

Phase broken_down(const Phase& before, bool is_isolated) {
  Phase phase;
  phase.begin_ms = before.begin_ms;
  phase.execution = Execution::stopped;
  phase.mode = Mode::manual;
  phase.has_fault = true;
  phase.power_is_on = before.power_is_on && !is_isolated;
  return phase;
}

// Where the machine is isolated for the repair: the middle half of long manned parts of the breakdown.
std::vector<ManSpan> isolations(const DayFrame& frame, const ManSpan& down) {
  std::vector<ManSpan> out;
  for (const ManSpan& span : frame.manned) {
    const std::int32_t begin = std::max(span.begin_ms, down.begin_ms);
    const std::int32_t end = std::min(span.end_ms, down.end_ms);
    if (end - begin > 90 * minute_ms) out.push_back({begin + (end - begin) / 4, end - (end - begin) / 4});
  }
  return out;
}

void DayPlanner::break_down() {
  for (const ManSpan& down : frame_.down) {
    const std::vector<ManSpan> isolated = isolations(frame_, down);
    cut_phase_at(phases_, down.begin_ms);
    cut_phase_at(phases_, down.end_ms);
    for (const ManSpan& i : isolated) {
      cut_phase_at(phases_, i.begin_ms);
      cut_phase_at(phases_, i.end_ms);
    }
    for (Phase& phase : phases_) {
      if (phase.begin_ms < down.begin_ms || phase.begin_ms >= down.end_ms) continue;
      const bool is_isolated = std::any_of(isolated.begin(), isolated.end(), [&](const ManSpan& i) {
        return phase.begin_ms >= i.begin_ms && phase.begin_ms < i.end_ms;
      });
      phase = broken_down(phase, is_isolated);
    }
  }
}

}  // namespace

std::vector<Phase> plan_day(const Machine& machine, const DayFrame& frame, Dice dice) {
  return DayPlanner(machine, frame, dice).plan();
}

}  // namespace hw::simulate
