#pragma once
// A reading as a person types it at the machine, with a gloved hand.
//
//   typed  := blanks [sign] digits-with-one-mark blanks [unit] blanks
//   mark   := "," or "."                the decimal mark; digits may be apart by blanks: 1 234,5
//   sign   := "+", "-" or U+2212
//
// What could mean two things is refused rather than guessed: 1,234 is a thousand and more to one person and a little
// over one to the next.

#include <string_view>

#include "src/catalogue/task.h"

namespace hw::condition {

// The value in the reading's unit. The unit may be typed or left out, in capitals or not, but no other unit. Refuses
// what is no number, exponents, NaN, infinity, more than 10^9 either way, and what the unit cannot be: a strength below
// 0 or above 100 %, a pH outside 0 to 14, a temperature below absolute zero, a negative level, amount, time or count.
// The message says what would be right.
Result<double> parse_reading(const catalogue::TaskReading& reading, std::string_view typed);

}  // namespace hw::condition
