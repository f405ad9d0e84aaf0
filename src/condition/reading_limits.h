#pragma once
// A reading against the limits that the shop has set for it: judged at once, in a sentence.
//
//   action            warning     as it should be     warning            action
//   ......... action.min ... warning.min ... warning.max ... action.max ........
//
// A value on a limit is still within it. A limit that is not set judges nothing, so a reading without any is written
// down but not judged: that nobody set a limit does not make it good. The sentence says what stands against which
// limit, never that a machine is safe.

#include <optional>
#include <string>
#include <string_view>

#include "src/catalogue/task.h"

namespace hw::condition {

enum class ReadingState { not_judged, as_it_should_be, warning, action };

// "not judged", "as it should be", "warning", "action".
std::string_view word_of(ReadingState state);

struct Judgement {
  ReadingState state = ReadingState::not_judged;
  std::string says;                  // "supply air: 5.2 bar is below the warning limit of 5.5 bar"
  std::optional<double> limit = {};  // that the value is beyond, in the reading's unit
};

// `value` is finite, in the reading's unit.
Judgement judge(const catalogue::TaskReading& reading, double value);

}  // namespace hw::condition
