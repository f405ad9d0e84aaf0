#include "src/life/interval_choice.h"

#include <algorithm>
#include <cmath>

namespace hw::life {

double rounded_down(double interval) {
  const double unit = std::pow(10, std::floor(std::log10(interval)) - 1);
  return std::floor(interval / unit * (1 + 1e-12)) * unit;
}

JudgedInterval judge_interval(std::span<const Believed> believed, const ReplacementCosts& costs, double now,
                              double interval) {
  return {interval, expected_cost_rate(believed, costs, now), expected_cost_rate(believed, costs, interval),
          judge_move(believed, costs, now, interval)};
}

IntervalChoice choose_interval(std::span<const Believed> believed, const ReplacementCosts& costs, double now,
                               double oldest) {
  const auto best = cheapest_interval(believed, costs).interval;
  const double furthest = std::max(reach_beyond_seen * oldest, now);
  const double wanted = std::min(best.value_or(never), furthest);
  const double then = rounded_down(wanted);
  const bool is_that_way = (wanted - now) * (then - now) > 0;  // rounding alone may turn it
  const bool is_move = is_that_way && std::abs(then - now) >= move_worth_making * now;
  return {judge_interval(believed, costs, now, is_move ? then : now), best, best.value_or(never) > furthest};
}

}  // namespace hw::life
