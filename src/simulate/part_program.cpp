#include "src/simulate/part_program.h"

#include <algorithm>

namespace hw::simulate {

namespace {

std::int64_t draw_from(Range range, Dice& dice) { return dice.between(range.min, range.max); }

std::int32_t draw_ms(std::int64_t min_ms, std::int64_t max_ms, Dice& dice) {
  return static_cast<std::int32_t>(dice.between(min_ms, max_ms));
}

std::uint8_t draw_axes(Dice& dice) { return static_cast<std::uint8_t>(dice.between(1, 7)); }

struct Halt {
  Execution execution;
  int per_mille;  // of tools
  Range seconds;
  bool spindle_stops;
};

constexpr Halt halts[] = {
    {Execution::feed_hold, 12, {5, 60}, false},
    {Execution::interrupted, 8, {20, 300}, true},
    {Execution::program_stopped, 25, {30, 180}, true},
    {Execution::optional_stop, 10, {20, 120}, true},
};

}  // namespace

void cut_phase_at(std::vector<Phase>& phases, std::int32_t at_ms) {
  const auto next =
      std::partition_point(phases.begin(), phases.end(), [&](const Phase& p) { return p.begin_ms < at_ms; });
  if (next == phases.begin() || (next != phases.end() && next->begin_ms == at_ms)) return;
  Phase copy = *(next - 1);
  copy.begin_ms = at_ms;
  copy.ends_part = false;
  phases.insert(next, copy);
}

void PhaseWriter::write(Phase phase) {
  phase.begin_ms = now_ms_;
  if (!phases_.empty() && phases_.back().begin_ms == now_ms_) phases_.pop_back();
  phases_.push_back(phase);
}

void PhaseWriter::hold(Phase phase, std::int32_t duration_ms) {
  if (is_full()) return;
  const std::int32_t left_ms = end_ms_ - now_ms_;
  if (duration_ms > left_ms && left_ms < 2000) phase.path_feed_um_s = 0;
  write(phase);
  now_ms_ += std::min(duration_ms, left_ms);
}

void PhaseWriter::stay(Phase phase) { write(phase); }

PartProgram ProgramMaker::draw(Dice& dice) const {
  PartProgram program;
  program.parts_left = draw_from(numbers_.parts, dice);
  program.tools.resize(static_cast<std::size_t>(draw_from(numbers_.tools, dice)));
  for (Tool& tool : program.tools) tool = draw_tool(dice);
  return program;
}

Tool ProgramMaker::draw_tool(Dice& dice) const {
  Tool tool;
  tool.speed_rpm = static_cast<std::int32_t>(draw_from(numbers_.speed_rpm, dice) / 10 * 10);
  tool.feed_um_s = static_cast<std::int32_t>(draw_from(numbers_.cut_feed_um_s, dice));
  tool.cut_ms = static_cast<std::int32_t>(draw_from(numbers_.cut_s, dice)) * 1000;
  tool.load_percent = static_cast<std::uint8_t>(dice.between(6, 70));
  tool.axes = draw_axes(dice);
  if (traits_.spindles > 1 && dice.chance(350)) {
    tool.spindle = 1;
    tool.contours = traits_.spindle_can_contour && dice.chance(600);
  }
  return tool;
}

// The spindle turns, nothing moves.
Phase ProgramMaker::between_cuts(const Tool& tool) const {
  Phase phase;
  phase.execution = Execution::active;
  phase.speed_rpm.at(tool.spindle) = tool.speed_rpm;
  phase.load_percent.at(tool.spindle) = 2;
  phase.contours = tool.contours;
  return phase;
}

void ProgramMaker::travel(Phase phase, PhaseWriter& day, Dice& dice) const {
  phase.path_feed_um_s = numbers_.rapid_um_s;
  phase.axes = draw_axes(dice);
  phase.load_percent = {};
  day.hold(phase, draw_ms(2000, 4500, dice));
}

void ProgramMaker::change_tool(const Tool& tool, PhaseWriter& day, Dice& dice) const {
  Phase phase;
  phase.execution = Execution::active;
  if (numbers_.spindle_stays_on) phase.speed_rpm[0] = tool.speed_rpm;
  day.hold(phase, numbers_.change_ms + draw_ms(0, 1500, dice));
}

// Pieces of a few seconds, each with its own feed, load and axes.
void ProgramMaker::cut(const Tool& tool, PhaseWriter& day, Dice& dice) const {
  std::int32_t left_ms = tool.cut_ms;
  while (left_ms > 0) {
    Phase phase = between_cuts(tool);
    phase.path_feed_um_s = static_cast<std::int32_t>(tool.feed_um_s * dice.between(70, 120) / 100);
    phase.axes = dice.chance(200) ? draw_axes(dice) : tool.axes;
    phase.load_percent.at(tool.spindle) = static_cast<std::uint8_t>(tool.load_percent * dice.between(60, 130) / 100);
    if (tool.contours) phase.turn_deg_s = static_cast<std::int16_t>(dice.between(5, 180));
    const std::int32_t piece_ms = draw_ms(3000, 8000, dice);
    day.hold(phase, piece_ms);
    left_ms -= piece_ms;
  }
}

void ProgramMaker::halt_by_chance(Phase phase, PhaseWriter& day, Dice& dice) const {
  for (const Halt& halt : halts) {
    if (!dice.chance(halt.per_mille)) continue;
    phase.execution = halt.execution;
    phase.override_percent = halt.execution == Execution::feed_hold ? 0 : 100;
    if (halt.spindle_stops && !numbers_.spindle_stays_on) phase.speed_rpm = {};
    day.hold(phase, static_cast<std::int32_t>(draw_from(halt.seconds, dice)) * 1000);
    return;
  }
}

void ProgramMaker::run(PartProgram& program, PhaseWriter& day, Dice& dice) const {
  Phase loading;
  if (numbers_.spindle_stays_on) loading.speed_rpm[0] = program.tools.front().speed_rpm;
  day.hold(loading, static_cast<std::int32_t>(draw_from(numbers_.load_s, dice)) * 1000);
  for (const Tool& tool : program.tools) {
    change_tool(tool, day, dice);
    travel(between_cuts(tool), day, dice);
    cut(tool, day, dice);
    halt_by_chance(between_cuts(tool), day, dice);
    travel(between_cuts(tool), day, dice);
  }
  if (day.is_full()) return;
  Phase ended = loading;
  ended.execution = Execution::program_completed;
  ended.ends_part = true;
  day.hold(ended, draw_ms(2000, 9000, dice));
  --program.parts_left;
}

}  // namespace hw::simulate
