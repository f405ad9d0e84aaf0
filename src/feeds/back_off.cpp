#include "src/feeds/back_off.h"

#include <algorithm>

namespace hw::feeds {

Duration BackOff::after_failure() {
  constexpr int doublings_max = 30;
  const double doubled = static_cast<double>(first_.ns) * static_cast<double>(std::int64_t{1} << failures_);
  failures_ = std::min(failures_ + 1, doublings_max);
  const double wait = std::min(doubled, static_cast<double>(max_.ns));
  return {static_cast<std::int64_t>(wait * (0.75 + 0.5 * random()))};
}

// splitmix64 (Steele, Lea, Flood 2014), the upper 53 bits as a number from 0 to below 1.
double BackOff::random() {
  std::uint64_t z = state_ += 0x9e37'79b9'7f4a'7c15;
  z = (z ^ (z >> 30)) * 0xbf58'476d'1ce4'e5b9;
  z = (z ^ (z >> 27)) * 0x94d0'49bb'1331'11eb;
  return static_cast<double>((z ^ (z >> 31)) >> 11) * 0x1p-53;
}

}  // namespace hw::feeds
