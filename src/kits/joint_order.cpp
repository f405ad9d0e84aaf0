#include "src/kits/joint_order.h"

#include <algorithm>

#include "libs/values/assert.h"

namespace hw::kits {

JointOrder join_order(const std::vector<Joiner>& joiners, double order_cost, int end) {
  HW_ASSERT(!joiners.empty(), "at least one part");
  JointOrder best;
  best.day = joiners.front().order_day;
  double holding = 0, lasts_until = end, least = 1e300, alone = 1e300;
  for (std::size_t n = 0; n < joiners.size(); ++n) {
    const Joiner& joiner = joiners[n];
    holding += joiner.holding_a_day * (joiner.order_day - best.day);
    lasts_until = std::min(lasts_until, joiner.order_day + std::max(joiner.lasts_days, 1.0));
    const bool has_next = n + 1 < joiners.size();
    if (has_next && joiners[n + 1].order_day == best.day) continue;
    const double next_day = std::min(lasts_until, has_next ? joiners[n + 1].order_day : double(end));
    const double rate = (order_cost + holding) / std::max(next_day - best.day, 1.0);
    if (best.count == 0) alone = rate;
    if (rate < least) {
      least = rate;
      best.count = n + 1;
    }
  }
  best.saves = alone - least;
  return best;
}

}  // namespace hw::kits
