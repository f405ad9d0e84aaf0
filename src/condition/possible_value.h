#pragma once
// What a reading can be at all, whatever its limits: a level is never negative, a pH never 15.

#include <string_view>

#include "src/catalogue/task.h"

namespace hw::condition {

// Refuses a value that no gauge shows: not finite, more than 10^9 either way, or what the reading's unit cannot be: a
// strength below 0 or above 100 %, a pH outside 0 to 14, a temperature below absolute zero, a negative level, amount,
// time or count. `value` is in the reading's unit. The message says what would be right.
Result<void> check_value(const catalogue::TaskReading& reading, double value);

// Refuses another unit than the reading's; capitals or not are the same.
Result<void> check_unit(const catalogue::TaskReading& reading, std::string_view unit);

}  // namespace hw::condition
