#include "src/simulate/floor.h"

#include <algorithm>

#include "libs/values/assert.h"
#include "src/simulate/day_events.h"
#include "src/simulate/machine_story.h"

namespace hw::simulate {

namespace {

Duration less(Duration a, Duration b) { return a - b; }

TrueUse less(const TrueUse& a, const TrueUse& b) {
  TrueUse out;
  out.powered = less(a.powered, b.powered);
  out.operating = less(a.operating, b.operating);
  out.spindle = less(a.spindle, b.spindle);
  out.axis = less(a.axis, b.axis);
  out.feeding = less(a.feeding, b.feeding);
  out.cutting = less(a.cutting, b.cutting);
  out.automatic = less(a.automatic, b.automatic);
  for (std::size_t i = 0; i < 2; ++i) out.each_spindle.at(i) = less(a.each_spindle.at(i), b.each_spindle.at(i));
  out.parts = a.parts - b.parts;
  return out;
}

}  // namespace

Floor::Floor(FloorPlan plan, std::span<const MachineEntry> entries)
    : plan_(std::move(plan)), machines_(make_machines(entries)) {
  for (const Machine& machine : machines_) stories_.push_back(std::make_unique<MachineStory>(plan_, machine));
}

Floor::~Floor() = default;

Floor::Day Floor::day_of(std::size_t machine, Instant at, Detail detail) const {
  MachineStory& story = *stories_.at(machine);
  const DayScript script = story.script_of(story.day_of(at));
  return {Instant::from_millis(script.begin_ms), Instant::from_millis(script.end_ms),
          events_of(story.machine(), script, plan_.feed, detail).events};
}

void Floor::tell(std::size_t machine, Instant from, Instant to, Detail detail, std::vector<Event>& out) const {
  const Instant first = begin_of_first_day();
  for (Instant at = std::max(from, first); at < to;) {
    const Day day = day_of(machine, at, detail);
    for (const Event& event : day.events) {
      if (event.arrives_at >= from && event.arrives_at < to) out.push_back(event);
    }
    at = day.end;
  }
}

std::vector<Event> Floor::standing(std::size_t machine, Instant at) const {
  MachineStory& story = *stories_.at(machine);
  std::vector<double> last(story.machine().tells.size(), counters::unknown_value);
  if (at >= begin_of_first_day()) {
    const DayScript script = story.script_of(story.day_of(at));
    const DayEvents day = events_of(story.machine(), script, plan_.feed, Detail::full);
    last = day.at_begin;
    for (const Event& event : day.events) {
      if (event.arrives_at < at) last[event.item] = event.value;
    }
  }
  const bool is_lossy = plan_.feed == FeedQuality::lossy;
  const Duration ahead = Duration::millis(is_lossy ? story.machine().traits.clock_ahead_ms : 0);
  std::vector<Event> out;
  for (std::uint32_t item = 0; item < last.size(); ++item) {
    const bool is_unknown = counters::is_unknown(last[item]);
    out.push_back({at, is_unknown ? at : at + ahead, item, last[item]});
  }
  return out;
}

Instant Floor::begin_of_first_day() const { return begin_of_floor_day(plan_.zone, plan_.begins_on); }

TrueUse Floor::truth(std::size_t machine, Instant from, Instant to) const {
  HW_ASSERT(from <= to, "a span does not end before it begins");
  MachineStory& story = *stories_.at(machine);
  return less(story.use_until(to), story.use_until(from));
}

}  // namespace hw::simulate
