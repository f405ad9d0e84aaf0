#pragma once
// Days to draw from: for each weekday rows of what a machine's counters rise by on one day. One row is drawn a day, so
// counters of one machine rise together.

#include <array>
#include <vector>

#include "src/rehearsal/shop_year.h"

namespace hw::rehearsal {

struct DayPool {
  std::size_t counters = 0;
  std::array<std::vector<double>, 7> rows;  // Monday first; one after another, `counters` numbers each

  std::size_t size(std::size_t weekday) const { return counters == 0 ? 0 : rows[weekday].size() / counters; }
};

// Past days as they are. Of a mean with scatter 100 days of equal chance of the gamma distribution with that mean and
// standard deviation, each the mean of its 100th: the mean is exact, the scatter to about a hundredth.
DayPool day_pool(const Machine& machine);

// The most that each counter rises by on one day.
std::vector<double> busiest_day(const Machine& machine);

}  // namespace hw::rehearsal
