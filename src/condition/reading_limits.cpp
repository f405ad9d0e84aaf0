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

std::string beyond(const TaskReading& reading, double value, std::string_view side, std::string_view limit, double at) {
  return fmt::format("{}: {} is {} the {} limit of {}", reading.what, print(reading, value), side, limit,
                     print(reading, at));
}

// What the value is beyond, or nothing where it lies within.
std::string beyond(const TaskReading& reading, double value, const Bounds& bounds, std::string_view limit) {
  if (bounds.min && value < *bounds.min) return beyond(reading, value, "below", limit, *bounds.min);
  if (bounds.max && value > *bounds.max) return beyond(reading, value, "above", limit, *bounds.max);
  return "";
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
  if (auto says = beyond(reading, value, reading.action, "action"); !says.empty()) return {ReadingState::action, says};
  if (auto says = beyond(reading, value, reading.warning, "warning"); !says.empty()) {
    return {ReadingState::warning, says};
  }
  return {ReadingState::as_it_should_be, measured + " is as it should be"};
}

}  // namespace hw::condition
