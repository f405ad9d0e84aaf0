#pragma once
// What a forecast of use rests on: how much a counter rose on each past day, and on which days nothing is used.
//
// Amounts are in the counter's unit (hours, cycles, metres). A day that is not in the list is unknown, never zero. A
// closed day, past or future, has no use; where the history has use on a closed day, the record is stronger and the
// day counts as any other.

#include <array>
#include <optional>
#include <vector>

#include "libs/values/local_date.h"
#include "libs/values/result.h"

namespace hw::due {

struct UseDay {
  LocalDate on;
  double used = 0;  // at least 0; at most 25 where the unit is hours (a day on which the clock is put back has 25)
};

enum class UseUnit { any, hours };

struct UseHistory {
  LocalDate start;                // the first day of the future
  std::vector<UseDay> days;       // before `start`, in any order
  std::vector<LocalDate> closed;  // past and future, in any order, repeats allowed
  UseUnit unit = UseUnit::any;
};

inline constexpr int history_days_min = 2;        // fewer carry no range
inline constexpr int history_days_max = 5 * 366;  // what is older is left out

// One day of the past as the forecast sees it.
struct PastDay {
  double used = 0;
  bool is_counted = false;  // false: unknown, or closed
  bool is_closed = false;   // and without use
};

// Every day from the first one with a record up to the day before `start`, without a gap.
struct PastUse {
  LocalDate first_on;
  std::vector<PastDay> days;
  int known_days = 0;    // days with a record, closed ones included
  int unknown_days = 0;  // days without, closed ones not included
};

// Refuses (bad_input) a day twice, a day on or after `start`, use that is negative or not a number, more than 25 h on a
// day, and fewer than two days that are not closed; names the day.
Result<PastUse> arrange(const UseHistory& history);

}  // namespace hw::due
