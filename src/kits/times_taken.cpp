#include "src/kits/times_taken.h"

#include <algorithm>
#include <cmath>

#include "libs/numerics/normal_tail.h"
#include "libs/values/assert.h"

namespace hw::kits {
namespace {

constexpr double chance_least = 1e-13;  // rarer numbers of failures are left out

std::vector<double> first_by_day(const due::DueDistribution& due, LocalDate today, int days) {
  std::vector<double> by_day(static_cast<std::size_t>(days));
  auto step = due.begin();
  double chance = 0;
  for (int day = 0; day < days; ++day) {
    for (; step != due.end() && step->on <= today + day; ++step) chance = step->chance;
    by_day[static_cast<std::size_t>(day)] = chance;
  }
  return by_day;
}

// P(a cycle takes so many days), from `least` on.
struct Cycle {
  std::size_t least = 1;
  std::vector<double> chances;
};

Cycle cycle_of(const ExpectedNeed& need) {
  const double sd = need.cycle_sd_days;
  if (sd <= 0) return {static_cast<std::size_t>(std::max(std::lround(need.cycle_days), 1L)), {1}};
  const double least = std::max(std::floor(need.cycle_days - 4 * sd), 1.0);
  const double most = std::max(std::ceil(need.cycle_days + 4 * sd), least);
  Cycle cycle{static_cast<std::size_t>(least), {}};
  double before = 0;
  for (double day = least; day <= most; ++day) {
    const double below = day < most ? numerics::normal_below((day + 0.5 - need.cycle_days) / sd) : 1;
    cycle.chances.push_back(below - before);
    before = below;
  }
  return cycle;
}

// The days of the time before, each moved on by a cycle.
std::vector<double> one_cycle_on(const std::vector<double>& by_day, const Cycle& cycle) {
  std::vector<double> on(by_day.size());
  const auto possible = std::find_if(by_day.begin(), by_day.end(), [](double chance) { return chance > 0; });
  const auto first = static_cast<std::size_t>(possible - by_day.begin());
  for (std::size_t n = 0; n < cycle.chances.size(); ++n) {
    const std::size_t shift = cycle.least + n;
    for (std::size_t day = shift + first; day < on.size(); ++day) on[day] += cycle.chances[n] * by_day[day - shift];
  }
  for (double& chance : on) chance = std::min(chance, 1.0);
  return on;
}

}  // namespace

TimesTaken TimesTaken::of_due(const ExpectedNeed& need, LocalDate today, int days) {
  TimesTaken times;
  times.at_least_.push_back(first_by_day(need.due, today, days));
  if (need.cycle_days <= 0) return times;
  const Cycle cycle = cycle_of(need);
  while (times.at_least_.back().back() > 0) {
    times.at_least_.push_back(one_cycle_on(times.at_least_.back(), cycle));
  }
  return times;
}

TimesTaken TimesTaken::of_rate(double rate_per_day) {
  HW_ASSERT(rate_per_day > 0, "a rate above 0");
  TimesTaken times;
  times.rate_ = rate_per_day;
  return times;
}

bool TimesTaken::move_to(int day) {
  if (rate_ <= 0) return move_due(day);
  fill_poisson_run(now_, rate_ * (day + 1), chance_least);
  return true;
}

bool TimesTaken::move_due(int day) {
  const auto at = static_cast<std::size_t>(day);
  const bool is_same = day > 0 && std::all_of(at_least_.begin(), at_least_.end(),
                                              [&](const auto& by_day) { return by_day[at] == by_day[at - 1]; });
  if (is_same) return false;
  std::size_t sure = 0;
  while (sure < at_least_.size() && at_least_[sure][at] >= 1) ++sure;
  now_.first = sure;
  now_.chances.clear();
  double before = 1;
  for (std::size_t k = sure; before > 0; ++k) {
    const double next = k < at_least_.size() ? std::min(at_least_[k][at], before) : 0;
    now_.chances.push_back(before - next);
    before = next;
  }
  return true;
}

double TimesTaken::mean(int day) const {
  if (rate_ > 0) return rate_ * (day + 1);
  double sum = 0;
  for (const auto& by_day : at_least_) sum += by_day[static_cast<std::size_t>(day)];
  return sum;
}

// E N^2 = sum over k of (2k - 1) P(N >= k).
double TimesTaken::variance(int day) const {
  if (rate_ > 0) return rate_ * (day + 1);
  double squares = 0;
  for (std::size_t k = 0; k < at_least_.size(); ++k) {
    squares += (2 * static_cast<double>(k) + 1) * at_least_[k][static_cast<std::size_t>(day)];
  }
  return std::max(squares - std::pow(mean(day), 2), 0.0);
}

std::size_t TimesTaken::most(int day) const {
  if (rate_ <= 0) {
    const auto possible = [&](const auto& by_day) { return by_day[static_cast<std::size_t>(day)] > 0; };
    return static_cast<std::size_t>(std::count_if(at_least_.begin(), at_least_.end(), possible));
  }
  PoissonRun run;
  fill_poisson_run(run, rate_ * (day + 1), chance_least);
  return run.first + run.chances.size() - 1;
}

}  // namespace hw::kits
