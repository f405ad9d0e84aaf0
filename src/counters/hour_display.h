#pragma once
// The hour display of a control, read by a person now and then, beside the hours that were counted. The display counts
// by a definition of its own (a control's automatic time also counts interruptions, up to a third more than
// program-running time in the recordings), starts anywhere, and may be reset or replaced. So the program never guesses:
// a reading that does not fit waits until a person says what happened.

#include <optional>
#include <string>

#include "libs/values/instant.h"
#include "libs/values/saying.h"

namespace hw::counters {

struct DisplayReading {
  double display_h = 0;
  double counted_h = 0;  // the counter's total at that moment
  double unknown_h = 0;  // the counter's unknown time until that moment
  Instant at;
};

struct DisplayVerdict {
  bool fits = true;
  double offset_h = 0;      // display - counted: what separates the two in this period of the display
  double difference_h = 0;  // rise of the display - rise of the counted hours; the whole offset for the first reading
  std::string says;         // one sentence
  Saying saying;            // what it says; hours with one decimal
};

// Rounding of displays and of the moment of reading, hours.
inline constexpr double display_rounding_h = 1.0;
// By how much a display may run faster or slower than the counter because it counts something slightly else.
inline constexpr double display_share_max = 0.35;

// Judges a reading against the one before it in the same period of the display. It fits when the display did not fall,
// did not run faster than time, and rose as the counter did, give or take unknown time, rounding and the definition.
DisplayVerdict judge(const std::optional<DisplayReading>& before, const DisplayReading& now);

}  // namespace hw::counters
