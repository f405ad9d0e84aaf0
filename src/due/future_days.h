#pragma once
// How much of a usual day's use each day of the next ten years can take: nothing where it is closed, the weekday's
// share elsewhere, more or less once an announced change of shifts begins.

#include <array>
#include <optional>
#include <vector>

#include "libs/values/local_date.h"

namespace hw::due {

using WeekdayShares = std::array<double, 7>;  // Monday to Sunday; relative to the mean of all seven days

inline constexpr int horizon_days = 3652;  // ten years: no due day is given beyond

// A change of shifts that somebody has announced.
struct ShiftChange {
  LocalDate from;
  double factor = 1;  // of the use so far, 0 to 100
  // Each weekday's use relative to a usual day from Monday to Friday, before the factor: {1,1,1,1,1,1,0} makes Saturday
  // a working day. Without it the weekdays stay as they were.
  std::optional<WeekdayShares> weekdays;
  std::optional<LocalDate> until = {};  // the last day; none: for good
};

// The sums of shares by the end of each day: sums[n] is that of `start` + n. Never falls. Changes that hold on the same
// day apply one after the other: factors multiply, the last one's weekdays stand.
std::vector<double> sum_shares(LocalDate start, const std::vector<LocalDate>& closed, const WeekdayShares& shares,
                               const std::vector<ShiftChange>& changes);

}  // namespace hw::due
