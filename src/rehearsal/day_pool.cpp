#include "src/rehearsal/day_pool.h"

#include <algorithm>

#include "libs/numerics/gamma_tail.h"

namespace hw::rehearsal {
namespace {

constexpr std::size_t drawn_days = 100;

// The means of the parts of equal chance of a gamma distribution with mean 1: between the quantiles a and b that is
// F(b; shape + 1) - F(a; shape + 1) over the chance.
std::vector<double> even_factors(double scatter) {
  if (scatter == 0) return std::vector<double>(drawn_days, 1.0);
  const double shape = 1 / (scatter * scatter);
  std::vector<double> factors(drawn_days);
  double below = 0;
  for (std::size_t n = 0; n < drawn_days; ++n) {
    const double chance = static_cast<double>(n + 1) / drawn_days;
    double next = 1;
    if (n + 1 < drawn_days) {
      next = numerics::gamma_below(shape + 1, numerics::chi_squared_quantile(chance, 2 * shape) / 2);
    }
    factors[n] = (next - below) * drawn_days;
    below = next;
  }
  return factors;
}

DayPool drawn_from(const std::vector<WeekdayUse>& use) {
  DayPool pool;
  pool.counters = use.size();
  std::vector<std::vector<double>> factors;
  for (const WeekdayUse& one : use) factors.push_back(even_factors(one.scatter));
  for (std::size_t weekday = 0; weekday < 7; ++weekday) {
    for (std::size_t n = 0; n < drawn_days; ++n) {
      for (std::size_t c = 0; c < use.size(); ++c) pool.rows[weekday].push_back(use[c].mean[weekday] * factors[c][n]);
    }
  }
  return pool;
}

}  // namespace

DayPool day_pool(const Machine& machine) {
  if (!machine.use.empty()) return drawn_from(machine.use);
  DayPool pool;
  pool.counters = machine.counters.size();
  for (const PastDay& day : machine.past) {
    auto& rows = pool.rows[static_cast<std::size_t>(day.weekday - 1)];
    rows.insert(rows.end(), day.used.begin(), day.used.end());
  }
  return pool;
}

std::vector<double> busiest_day(const Machine& machine) {
  const DayPool pool = day_pool(machine);
  std::vector<double> most(pool.counters, 0.0);
  for (const auto& rows : pool.rows) {
    for (std::size_t n = 0; n < rows.size(); ++n) most[n % pool.counters] = std::max(most[n % pool.counters], rows[n]);
  }
  return most;
}

}  // namespace hw::rehearsal
