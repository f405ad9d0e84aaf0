#include "src/rehearsal/spread.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include "libs/values/assert.h"

namespace hw::rehearsal {
namespace {

using SpreadOf = Spread OutcomeSpread::*;
constexpr std::array<SpreadOf, figures.size()> spreads{&OutcomeSpread::failures,       &OutcomeSpread::stops,
                                                       &OutcomeSpread::tasks_done,     &OutcomeSpread::hands_on_hours,
                                                       &OutcomeSpread::standing_hours, &OutcomeSpread::cost};

double quantile_of(const std::vector<double>& ascending, double share) {
  const double place = share * static_cast<double>(ascending.size() - 1);
  const auto below = static_cast<std::size_t>(place);
  const std::size_t above = std::min(below + 1, ascending.size() - 1);
  return ascending[below] + (place - static_cast<double>(below)) * (ascending[above] - ascending[below]);
}

}  // namespace

Spread spread_of(std::span<const double> values) {
  HW_ASSERT(values.size() >= 2, "two years at least");
  const auto count = static_cast<double>(values.size());
  std::vector<double> ascending(values.begin(), values.end());
  std::sort(ascending.begin(), ascending.end());
  Spread spread;
  for (const double value : ascending) spread.mean += value / count;
  double squares = 0;
  for (const double value : ascending) squares += (value - spread.mean) * (value - spread.mean);
  spread.se = std::sqrt(squares / (count - 1) / count);
  spread.q5 = quantile_of(ascending, 0.05);
  spread.q50 = quantile_of(ascending, 0.5);
  spread.q95 = quantile_of(ascending, 0.95);
  return spread;
}

OutcomeSpread spread_of(std::span<const Outcome> years) {
  OutcomeSpread made;
  std::vector<double> values(years.size());
  for (std::size_t f = 0; f < figures.size(); ++f) {
    std::transform(years.begin(), years.end(), values.begin(), [&](const Outcome& year) { return year.*figures[f]; });
    made.*spreads[f] = spread_of(values);
  }
  return made;
}

Difference difference_of(std::span<const Outcome> present, std::span<const Outcome> changed) {
  HW_ASSERT(present.size() == changed.size(), "as many years of both");
  std::vector<Outcome> less(present.size());
  Difference difference;
  std::size_t cheaper = 0, same = 0;
  for (std::size_t n = 0; n < present.size(); ++n) {
    for (const Figure figure : figures) less[n].*figure = changed[n].*figure - present[n].*figure;
    if (less[n].cost < 0) ++cheaper;
    if (less[n].cost == 0) ++same;
  }
  difference.cheaper = static_cast<double>(cheaper) / static_cast<double>(present.size());
  difference.same_cost = static_cast<double>(same) / static_cast<double>(present.size());
  difference.spread = spread_of(less);
  return difference;
}

}  // namespace hw::rehearsal
