#include "src/condition/reading_limits.h"

#include <cmath>

#include "libs/values/assert.h"

namespace hw::condition {
namespace {

using catalogue::Bounds;
using catalogue::TaskReading;

// "5.2 bar"; a reading that is called as its unit, such as pH, needs no unit again.
std::string print(const TaskReading& reading, double value) {
  return reading.unit == reading.what ? fmt::format("{}", value) : fmt::format("{} {}", value, reading.unit);
}

// What the value is beyond, or nothing where it lies within.
struct Beyond {
  std::string_view side;
  double limit;
};
std::optional<Beyond> beyond(const Bounds& bounds, double value) {
  if (bounds.min && value < *bounds.min) return Beyond{"below", *bounds.min};
  if (bounds.max && value > *bounds.max) return Beyond{"above", *bounds.max};
  return std::nullopt;
}

}  // namespace

std::string_view word_of(ReadingState state) {
  switch (state) {
    case ReadingState::not_judged:
      return "not judged";
    case ReadingState::as_it_should_be:
      return "as it should be";
    case ReadingState::warning:
      return "warning";
    case ReadingState::action:
      return "action";
  }
  HW_ASSERT(false, "every state has a word");
}

Judgement judge(const TaskReading& reading, double value) {
  HW_ASSERT(std::isfinite(value), "a reading is a finite number");
  const std::string measured = fmt::format("{}: {}", reading.what, print(reading, value));
  if (reading.warning == Bounds{} && reading.action == Bounds{}) {
    return {ReadingState::not_judged, measured + ", no limits are set"};
  }
  for (const ReadingState state : {ReadingState::action, ReadingState::warning}) {
    const auto found = beyond(state == ReadingState::action ? reading.action : reading.warning, value);
    if (!found) continue;
    return {
        state,
        fmt::format("{} is {} the {} limit of {}", measured, found->side, word_of(state), print(reading, found->limit)),
        found->limit};
  }
  return {ReadingState::as_it_should_be, measured + " is as it should be"};
}

}  // namespace hw::condition
