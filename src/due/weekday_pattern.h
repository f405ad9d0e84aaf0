#pragma once
// Which weekdays carry how much of the use: learned from the days with a record, recent ones more.
//
//   share_j = k_j target_j + (1 - k_j) mean_j,   k_j = v_j / (v_j + b),   v_j = scatter_j / n_j
// with the target the mean of Monday to Friday, or of Saturday and Sunday; b how much the weekdays differ among each
// other beyond their scatter (empirical Bayes: what a weekday's few days cannot carry, the others lend). Days lose half
// their weight in 180 days. Weekends of which nothing is known are taken for 0.3 of a working day.

#include "src/due/daily_use.h"
#include "src/due/future_days.h"

namespace hw::due {

struct WeekdayPattern {
  WeekdayShares shares{1, 1, 1, 1, 1, 1, 1};  // mean 1, each at least 0
  WeekdayShares days{};                       // days with a record on which each rests, all at full weight
};

// What machines of the same kind and cell lend to a machine whose own history is short.
struct LentUse {
  double per_day = 0;                         // their mean use per calendar day, above 0, in the same unit
  double spread = 0;                          // standard deviation of that mean from machine to machine, above 0
  WeekdayShares shares{1, 1, 1, 1, 1, 1, 1};  // mean 1
};

// `past` has use on at least one day, or something is lent.
WeekdayPattern learn_weekdays(const PastUse& past, const LentUse* lent);

}  // namespace hw::due
