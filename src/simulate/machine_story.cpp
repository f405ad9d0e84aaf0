#include "src/simulate/machine_story.h"

#include <algorithm>

#include "libs/values/assert.h"
#include "src/simulate/kind_numbers.h"

namespace hw::simulate {

namespace {

constexpr int overtime_per_mille = 150;

std::int64_t ms_of(Instant at) { return at.as_millis(); }

}  // namespace

void add_use(TrueUse& use, const Phase& phase, Duration duration) {
  const auto add = [&](Duration& sum, bool counts) {
    if (counts) sum = sum + duration;
  };
  add(use.powered, phase.power_is_on);
  add(use.operating, is_operating(phase));
  add(use.spindle, spindle_turns(phase));
  add(use.axis, is_feeding(phase));
  add(use.feeding, is_feeding(phase));
  add(use.cutting, is_cutting(phase));
  add(use.automatic, is_automatic(phase));
  for (std::size_t i = 0; i < 2; ++i) add(use.each_spindle.at(i), phase.speed_rpm.at(i) != 0);
}

std::array<std::int32_t, 3> place_after(const Phase& phase, const std::array<std::int32_t, 3>& before_um) {
  std::array<std::int32_t, 3> after = before_um;
  if (!is_feeding(phase)) return after;
  for (std::size_t axis = 0; axis < 3; ++axis) {
    if ((phase.axes >> axis & 1U) == 0) continue;
    const auto target = static_cast<std::int32_t>(mix(static_cast<std::uint64_t>(phase.begin_ms), axis) % 400'000);
    after.at(axis) = std::abs(target - before_um.at(axis)) < 5'000 ? target + 10'000 : target;
  }
  return after;
}

MachineStory::MachineStory(const FloorPlan& plan, const Machine& machine)
    : plan_(plan),
      machine_(machine),
      seed_(mix(plan.seed, hash_of(machine.entry.key))),
      down_(breakdowns, mix(seed_, 1), ms_of(begin_of_floor_day(plan.zone, plan.begins_on))),
      lost_(feed_losses, mix(seed_, 2), ms_of(begin_of_floor_day(plan.zone, plan.begins_on))),
      carry_(1) {}

DayFrame MachineStory::frame_of(LocalDate date, std::int64_t begin_ms, std::int64_t end_ms) {
  DayFrame frame;
  frame.length_ms = static_cast<std::int32_t>(end_ms - begin_ms);
  Dice dice(mix(seed_, 0x5a7u + static_cast<std::uint64_t>(date.days)));
  if (is_working_day(plan_, date)) {
    frame.manned = manned_spans(plan_.zone, date, numbers_of(machine_.entry.kind).shifts);
  } else if (iso_weekday(date) == 6 && is_working_day(plan_, date - 1) && dice.chance(overtime_per_mille)) {
    frame.manned = overtime_spans(plan_.zone, date);
  }
  for (const Span& span : down_.between(begin_ms, end_ms)) {
    frame.down.push_back({static_cast<std::int32_t>(std::max(span.begin_ms, begin_ms) - begin_ms),
                          static_cast<std::int32_t>(std::min(span.end_ms, end_ms) - begin_ms)});
  }
  return frame;
}

DayScript MachineStory::plan_script(LocalDate date) {
  DayScript script;
  script.date = date;
  script.begin_ms = ms_of(begin_of_floor_day(plan_.zone, date));
  script.end_ms = ms_of(begin_of_floor_day(plan_.zone, date + 1));
  const DayFrame frame = frame_of(date, script.begin_ms, script.end_ms);
  script.phases = plan_day(machine_, frame, Dice(mix(seed_, static_cast<std::uint64_t>(date.days))));
  return script;
}

void MachineStory::carry_on_to(std::size_t day) {
  while (carry_.size() <= day) {
    const DayScript script = plan_script(plan_.begins_on + static_cast<int>(carry_.size() - 1));
    Carry carry = carry_.back();
    const auto length_ms = static_cast<std::int32_t>(script.end_ms - script.begin_ms);
    for (std::size_t i = 0; i < script.phases.size(); ++i) {
      const Phase& phase = script.phases[i];
      const std::int32_t end_ms = i + 1 < script.phases.size() ? script.phases[i + 1].begin_ms : length_ms;
      add_use(carry.use, phase, Duration::millis(end_ms - phase.begin_ms));
      carry.use.parts += phase.ends_part ? 1 : 0;
      carry.place_um = place_after(phase, carry.place_um);
    }
    carry_.push_back(carry);
  }
}

DayScript MachineStory::script_of(LocalDate date) {
  HW_ASSERT(has_begun(date), "a day from the floor's first one on");
  const std::lock_guard lock(mutex_);
  const auto day = static_cast<std::size_t>(date - plan_.begins_on);
  carry_on_to(day);
  DayScript script = plan_script(date);
  script.carry = carry_[day];
  if (plan_.feed == FeedQuality::lossy) script.losses = lost_.between(script.begin_ms, script.end_ms);
  return script;
}

TrueUse MachineStory::use_until(Instant at) {
  const LocalDate date = day_of(at);
  if (!has_begun(date)) return {};
  const DayScript script = script_of(date);
  TrueUse use = script.carry.use;
  const std::int64_t at_ns = at.ns - script.begin_ms * 1'000'000;
  for (std::size_t i = 0; i < script.phases.size(); ++i) {
    const std::int64_t begin_ns = std::int64_t{script.phases[i].begin_ms} * 1'000'000;
    if (begin_ns >= at_ns) break;
    const bool is_last = i + 1 == script.phases.size();
    const std::int64_t end_ns = is_last ? at_ns : std::int64_t{script.phases[i + 1].begin_ms} * 1'000'000;
    add_use(use, script.phases[i], Duration{std::min(end_ns, at_ns) - begin_ns});
    use.parts += script.phases[i].ends_part ? 1 : 0;
  }
  return use;
}

}  // namespace hw::simulate
