#pragma once
// What a forecast of use rests on: how much a counter rose on each past day, and on which days nothing is used.
//
// Amounts are in the counter's unit (hours, cycles, metres). A day that is not in the list is unknown, never zero. A
// closed day, past or future, has no use; where the history has use on a closed day, the record is stronger and the
// day counts as any other. Where a counter was read now and then only, the use of the days between two readings is
// known together: such days tell of the level, but not of weekdays, nor of how much a day scatters.

#include <array>
#include <optional>
#include <vector>

#include "libs/values/local_date.h"
#include "libs/values/result.h"

namespace hw::due {

struct UseDay {
  LocalDate on;
  double used = 0;  // at least 0; at most 25 a day where the unit is hours (when the clock is put back a day has 25)
  int days = 1;     // 1 to history_days_max: the use of so many days, of which this is the last, is known together
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
  bool is_counted = false;    // false: unknown, or closed
  bool is_closed = false;     // and without use
  bool is_shared = false;     // known together with others: an even part of what they used
  bool is_continued = false;  // it is not the first of these
};

// Every day from the first one with a record up to the day before `start`, without a gap.
struct PastUse {
  LocalDate first_on;
  std::vector<PastDay> days;
  int known_days = 0;    // days with a record, closed ones included
  int unknown_days = 0;  // days without, closed ones not included
};

// Days that are known together have an even part each, those that are closed none (all of them where all are closed);
// without use each is known by itself. Refuses (bad_input) a day twice, a day on or after `start`, use that is negative
// or not a number, more than 25 h on a day, a number of days out of range, and fewer than two days that are not closed;
// names the day.
Result<PastUse> arrange(const UseHistory& history);

}  // namespace hw::due
