#include "src/simulate/outages.h"

#include <algorithm>

namespace hw::simulate {

void Outages::extend() {
  const std::int64_t begin_ms =
      known_until_ms_ + dice_.exponential(numbers_.between_mean_min) * 60'000 + dice_.between(1, 59'999);
  const bool is_long = dice_.chance(numbers_.long_per_mille);
  const std::int64_t mean_s = is_long ? numbers_.long_mean_s : numbers_.short_mean_s;
  const std::int64_t length_s = numbers_.least_s + dice_.exponential(mean_s);
  known_until_ms_ = begin_ms + length_s * 1000;
  spans_.push_back({begin_ms, known_until_ms_});
}

std::vector<Span> Outages::between(std::int64_t begin_ms, std::int64_t end_ms) {
  while (known_until_ms_ < end_ms) extend();
  std::vector<Span> found;
  auto span = std::partition_point(spans_.begin(), spans_.end(), [&](const Span& s) { return s.end_ms <= begin_ms; });
  for (; span != spans_.end() && span->begin_ms < end_ms; ++span) found.push_back(*span);
  return found;
}

}  // namespace hw::simulate
