#pragma once
// One machine's life: what it carries from day to day, and a day's events.

#include <array>
#include <cstdint>
#include <mutex>
#include <vector>

#include "src/simulate/day_plan.h"
#include "src/simulate/floor.h"
#include "src/simulate/outages.h"

namespace hw::simulate {

// What stands at the begin of a day.
struct Carry {
  TrueUse use;                             // since the floor's first day
  std::array<std::int32_t, 3> place_um{};  // where the axes are
};

// Adds what `duration` in that phase is worth; a part is counted by count_part.
void add_use(TrueUse& use, const Phase& phase, Duration duration);

// Where the axes are at the phase's end: a place of its own for each, more than 5 mm away where it moves.
std::array<std::int32_t, 3> place_after(const Phase& phase, const std::array<std::int32_t, 3>& before_um);

// All that the events of a day follow from.
struct DayScript {
  LocalDate date;
  std::int64_t begin_ms = 0;  // floor time since 1970
  std::int64_t end_ms = 0;
  std::vector<Phase> phases;
  std::vector<Span> losses;  // of the feed, whole, those that touch the day
  Carry carry;
};

// Safe for use by several threads.
class MachineStory {
 public:
  MachineStory(const FloorPlan& plan, const Machine& machine);

  const Machine& machine() const { return machine_; }
  LocalDate day_of(Instant at) const { return floor_day_of(plan_.zone, at); }
  bool has_begun(LocalDate date) const { return date >= plan_.begins_on; }
  // For a day from the plan's first one on.
  DayScript script_of(LocalDate date);
  // Use since the floor's begin; none before it.
  TrueUse use_until(Instant at);

 private:
  DayScript plan_script(LocalDate date);
  void carry_on_to(std::size_t day);
  DayFrame frame_of(LocalDate date, std::int64_t begin_ms, std::int64_t end_ms);

  const FloorPlan& plan_;
  const Machine& machine_;
  const std::uint64_t seed_;
  std::mutex mutex_;
  Outages down_;
  Outages lost_;
  std::vector<Carry> carry_;  // at the begin of each day from begins_on on
};

}  // namespace hw::simulate
