#include "src/counters/two_clocks.h"

#include <algorithm>

#include "src/counters/settings.h"

namespace hw::counters {

bool TwoClocks::pass_unknown(Observation& arrival, const Stamps& stamps) {
  if (!unknowns_.insert({arrival.at.ns, arrival.item}).second) return false;
  const std::int64_t stamp = arrival.at.ns;
  const std::int64_t farthest = stamp > INT64_MAX - clock_skew_max.ns ? INT64_MAX : stamp + clock_skew_max.ns;
  for (const std::int64_t value_at : {stamps.latest, stamps.last_arrived}) {
    if (value_at > stamp && value_at <= farthest) arrival.at.ns = std::max(arrival.at.ns, value_at);
  }
  return true;
}

void TwoClocks::forget_before(Instant time) {
  std::erase_if(unknowns_, [&](const Unknown& unknown) { return unknown.at < time.ns; });
}

}  // namespace hw::counters
