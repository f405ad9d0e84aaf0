#pragma once
// How often one need has come by a day: P(N = k), moved from day to day.

#include <span>
#include <vector>

#include "src/kits/needs.h"
#include "src/kits/poisson.h"

namespace hw::kits {

class TimesTaken {
 public:
  // P(N(d) >= k) = P(first due + (k - 1) cycles <= d); each cycle scatters by itself, normally, cut at 4 standard
  // deviations and at a day.
  static TimesTaken of_due(const ExpectedNeed& need, LocalDate today, int days);
  // Poisson with mean rate_per_day * (d + 1): today counts as a whole day.
  static TimesTaken of_rate(double rate_per_day);

  // To that day, from 0 to days - 1; false where nothing is other than on the day before.
  bool move_to(int day);
  // P(N = first() + n) = chances()[n]; both of the day moved to.
  std::size_t first() const { return now_.first; }
  std::span<const double> chances() const { return now_.chances; }

  double mean(int day) const;
  double variance(int day) const;
  std::size_t most(int day) const;  // times that are possible; for a rate: that have a chance above 1e-13 or so

 private:
  bool move_due(int day);

  double rate_ = 0;                            // 0: by at_least_
  std::vector<std::vector<double>> at_least_;  // [k - 1][day]
  PoissonRun now_;                             // of the day moved to, whatever it comes from
};

}  // namespace hw::kits
