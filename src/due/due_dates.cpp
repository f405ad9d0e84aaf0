#include "src/due/due_dates.h"

#include <algorithm>

#include "libs/values/assert.h"

namespace hw::due {
namespace {

constexpr double rounding = 1e-12;  // sums of probabilities miss a chance by less

std::vector<LocalDate> all_days(std::span<const DueDistribution> dues) {
  std::vector<LocalDate> days;
  for (const DueDistribution& due : dues) {
    for (const DueStep& step : due) days.push_back(step.on);
  }
  std::sort(days.begin(), days.end());
  days.erase(std::unique(days.begin(), days.end()), days.end());
  return days;
}

double chance_of_first(std::span<const DueDistribution> dues, Together together, LocalDate day) {
  double greatest = 0, none = 1;
  for (const DueDistribution& due : dues) {
    const double chance = chance_by(due, day);
    greatest = std::max(greatest, chance);
    none *= 1 - chance;
  }
  return together == Together::alike ? greatest : 1 - none;
}

}  // namespace

std::optional<LocalDate> quantile(const DueDistribution& due, double chance) {
  HW_ASSERT(chance > 0 && chance <= 1, "a chance in (0, 1]");
  const auto step =
      std::find_if(due.begin(), due.end(), [&](const DueStep& s) { return s.chance >= chance - rounding; });
  return step == due.end() ? std::nullopt : std::optional(step->on);
}

double chance_by(const DueDistribution& due, LocalDate day) {
  double chance = 0;
  for (const DueStep& step : due) {
    if (step.on > day) break;
    chance = step.chance;
  }
  return chance;
}

DueQuantiles quantiles(const DueDistribution& due) {
  DueQuantiles days;
  for (std::size_t n = 0; n < days.size(); ++n) days[n] = quantile(due, shown_chances[n]);
  return days;
}

DueDistribution on_calendar(LocalDate day) { return {{day, 1}}; }

DueDistribution first_of(std::span<const DueDistribution> dues, Together together) {
  DueDistribution first;
  for (const LocalDate day : all_days(dues)) {
    const double chance = chance_of_first(dues, together, day);
    if (first.empty() || chance > first.back().chance) first.push_back({day, chance});
    if (chance >= 1) break;
  }
  return first;
}

}  // namespace hw::due
