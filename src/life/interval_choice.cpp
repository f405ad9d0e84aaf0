#include "src/life/interval_choice.h"

#include <algorithm>
#include <cmath>

namespace hw::life {

double rounded_down(double interval) {
  const double unit = std::pow(10, std::floor(std::log10(interval)) - 1);
  return std::floor(interval / unit * (1 + 1e-12)) * unit;
}

IntervalChoice choose_interval(std::span<const Believed> believed, const ReplacementCosts& costs, double now,
                               double oldest) {
  IntervalChoice choice;
  choice.best = cheapest_interval(believed, costs).interval;
  const double furthest = std::max(reach_beyond_seen * oldest, now);
  const double best = choice.best.value_or(never);
  choice.is_held_back = best > furthest;
  const double wanted = std::min(best, furthest);
  const double then = rounded_down(wanted);
  const bool is_that_way = (wanted - now) * (then - now) > 0;  // rounding alone may turn it
  choice.interval = is_that_way && std::abs(then - now) >= move_worth_making * now ? then : now;
  choice.rate_now = expected_cost_rate(believed, costs, now);
  choice.rate_then = expected_cost_rate(believed, costs, choice.interval);
  choice.move = judge_move(believed, costs, now, choice.interval);
  return choice;
}

}  // namespace hw::life
