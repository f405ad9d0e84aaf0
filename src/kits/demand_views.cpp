#include <algorithm>
#include <cmath>

#include "libs/values/assert.h"
#include "src/kits/demand.h"
#include "src/kits/times_taken.h"

namespace hw::kits {

std::vector<double> expected_by_day(const CertainNeed& need, LocalDate today, int days) {
  std::vector<double> by_day(static_cast<std::size_t>(days));
  const int on = std::max(need.on - today, 0);
  if (on < days) std::fill(by_day.begin() + on, by_day.end(), need.quantity);
  return by_day;
}

std::vector<double> expected_by_day(const ExpectedNeed& need, LocalDate today, int days) {
  const TimesTaken times = TimesTaken::of_due(need, today, days);
  std::vector<double> by_day(static_cast<std::size_t>(days));
  for (int day = 0; day < days; ++day) by_day[static_cast<std::size_t>(day)] = need.quantity * times.mean(day);
  return by_day;
}

std::vector<double> expected_by_day(const FailureNeed& need, int days) {
  std::vector<double> by_day(static_cast<std::size_t>(days));
  for (int day = 0; day < days; ++day) {
    by_day[static_cast<std::size_t>(day)] = need.quantity * need.rate_per_day * (day + 1);
  }
  return by_day;
}

std::vector<WeekOfDemand> by_week(const Demand& demand, LocalDate today) {
  std::vector<WeekOfDemand> weeks;
  for (int last = 6; last < demand.days(); last += 7) {
    const double mean_by = demand.mean(last);
    weeks.push_back({today + last, mean_by - demand.mean(last - 7), mean_by, demand.quantile(last, 0.05),
                     demand.quantile(last, 0.5), demand.quantile(last, 0.95)});
  }
  return weeks;
}

double each_of_kit(double chance, int parts) {
  HW_ASSERT(chance > 0 && chance < 1 && parts >= 1, "a chance inside (0, 1), at least one part");
  return std::pow(chance, 1.0 / parts);
}

}  // namespace hw::kits
