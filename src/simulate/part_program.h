#pragma once
// The programs that parts are made by, and the writing of phases one after another.

#include <cstdint>
#include <vector>

#include "src/simulate/dice.h"
#include "src/simulate/kind_numbers.h"
#include "src/simulate/machine.h"
#include "src/simulate/phase.h"

namespace hw::simulate {

// Lets a phase begin at that moment of the day, as a copy of the one that runs then. Nothing outside the day.
void cut_phase_at(std::vector<Phase>& phases, std::int32_t at_ms);

// Writes a day from its begin to its end.
class PhaseWriter {
 public:
  explicit PhaseWriter(std::vector<Phase>& phases) : phases_(phases) {}

  // Nothing is written from that moment on; a phase that would pass it is cut there.
  void allow_until(std::int32_t end_ms) { end_ms_ = end_ms; }
  bool is_full() const { return now_ms_ >= end_ms_; }
  std::int32_t now_ms() const { return now_ms_; }

  // The state from now on for so long. A motion cut to less than two seconds is left out: feeds that tell positions
  // could not show it.
  void hold(Phase phase, std::int32_t duration_ms);
  // The state from now on until something else is written; what was cut off at the end stays cut.
  void stay(Phase phase);
  // Lets the present state last until then.
  void skip_to(std::int32_t at_ms) { now_ms_ = std::max(now_ms_, at_ms); }

 private:
  void write(Phase phase);

  std::vector<Phase>& phases_;
  std::int32_t now_ms_ = 0;
  std::int32_t end_ms_ = 0;
};

struct Tool {
  std::int32_t speed_rpm = 0;
  std::int32_t feed_um_s = 0;
  std::int32_t cut_ms = 0;
  std::uint8_t spindle = 0;
  std::uint8_t load_percent = 0;
  std::uint8_t axes = 1;  // that mostly move; see Phase
  bool contours = false;  // the first spindle turns as an axis while the second one cuts
};

struct PartProgram {
  std::vector<Tool> tools;
  std::int64_t parts_left = 0;
};

class ProgramMaker {
 public:
  explicit ProgramMaker(const Machine& machine) : traits_(machine.traits), numbers_(numbers_of(machine.entry.kind)) {}

  PartProgram draw(Dice& dice) const;
  // Makes one part: loads it, runs the program with its halts, ends it.
  void run(PartProgram& program, PhaseWriter& day, Dice& dice) const;

 private:
  Tool draw_tool(Dice& dice) const;
  Phase between_cuts(const Tool& tool) const;
  void change_tool(const Tool& tool, PhaseWriter& day, Dice& dice) const;
  void cut(const Tool& tool, PhaseWriter& day, Dice& dice) const;
  void travel(Phase phase, PhaseWriter& day, Dice& dice) const;
  void halt_by_chance(Phase phase, PhaseWriter& day, Dice& dice) const;

  const Traits& traits_;
  const KindNumbers& numbers_;
};

}  // namespace hw::simulate
