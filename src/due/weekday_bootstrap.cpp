#include <algorithm>
#include <cmath>
#include <map>

#include "libs/numerics/grid_sum.h"
#include "libs/values/assert.h"
#include "src/due/future_days.h"
#include "src/due/plain_forecasts.h"

namespace hw::due {
namespace {

constexpr double coarse_steps = 400;
constexpr double exact_steps_max = 10'000;
constexpr double chance_enough = 1 - 1e-12;

using DayAmounts = std::vector<numerics::GridAmount>;

struct Grid {
  double step = 1;
  std::int64_t threshold = 0;
};

Grid grid_of(const std::vector<double>& amounts, double left) {
  std::vector<double> all = amounts;
  all.push_back(left);
  const auto step = numerics::shared_step(all);
  if (step && left / *step <= exact_steps_max) return {*step, static_cast<std::int64_t>(std::llround(left / *step))};
  return {left / coarse_steps, static_cast<std::int64_t>(coarse_steps)};
}

// Equal amounts as one; an amount between two points of the grid as a chance of each, with the same mean.
DayAmounts on_grid(const std::vector<double>& amounts, const Grid& grid) {
  std::map<std::int64_t, double> chances_by_steps;
  for (const double amount : amounts) {
    const double steps = std::min(amount / grid.step, static_cast<double>(grid.threshold) + 1);
    const bool is_on_point = std::abs(steps - std::round(steps)) < 1e-5;
    const double below = is_on_point ? std::round(steps) : std::floor(steps);
    const double part = is_on_point ? 0 : steps - below;
    const double chance = 1 / static_cast<double>(amounts.size());
    chances_by_steps[static_cast<std::int64_t>(below)] += (1 - part) * chance;
    if (part > 0) chances_by_steps[static_cast<std::int64_t>(below) + 1] += part * chance;
  }
  DayAmounts day;
  for (const auto& [steps, chance] : chances_by_steps) day.push_back({steps, chance});
  return day;
}

std::array<DayAmounts, 7> draws_by_weekday(const PastUse& past, const Grid& grid, const std::vector<double>& all) {
  std::array<std::vector<double>, 7> amounts;
  const auto first_weekday = static_cast<std::size_t>(iso_weekday(past.first_on) - 1);
  for (std::size_t n = 0; n < past.days.size(); ++n) {
    if (past.days[n].is_counted) amounts[(first_weekday + n) % 7].push_back(past.days[n].used);
  }
  std::array<DayAmounts, 7> draws;
  for (std::size_t day = 0; day < 7; ++day) draws[day] = on_grid(amounts[day].empty() ? all : amounts[day], grid);
  return draws;
}

}  // namespace

DueDistribution weekday_bootstrap(const PastUse& past, const UseHistory& history, double left) {
  HW_ASSERT(std::isfinite(left), "a finite amount left");
  if (left <= 0) return on_calendar(history.start);
  std::vector<double> all;
  for (const PastDay& day : past.days) {
    if (day.is_counted) all.push_back(day.used);
  }
  if (std::all_of(all.begin(), all.end(), [](double used) { return used <= 0; })) return {};
  const Grid grid = grid_of(all, left);
  const auto draws = draws_by_weekday(past, grid, all);
  const std::vector<double> open = sum_shares(history.start, history.closed, {1, 1, 1, 1, 1, 1, 1}, {});
  numerics::GridSum sum(grid.threshold);
  DueDistribution due;
  for (int ahead = 0; ahead < horizon_days && sum.reached() < chance_enough; ++ahead) {
    const auto n = static_cast<std::size_t>(ahead);
    if (n > 0 ? open[n] == open[n - 1] : open[n] == 0) continue;
    const LocalDate day = history.start + ahead;
    sum.add(draws[static_cast<std::size_t>(iso_weekday(day) - 1)]);
    if (sum.reached() > (due.empty() ? 0 : due.back().chance)) due.push_back({day, std::min(1.0, sum.reached())});
  }
  return due;
}

}  // namespace hw::due
