#pragma once
// How long to wait before the next try: twice as long after each failure, and never quite the same, so that fifty feeds
// that lost their network together do not come back in step.

#include <cstdint>

#include "libs/values/instant.h"

namespace hw::feeds {

class BackOff {
 public:
  BackOff(Duration first, Duration max, std::uint64_t seed) : first_(first), max_(max), state_(seed) {}

  // The wait after one more failure: first * 2^failures up to max, times 0.75 to 1.25.
  Duration after_failure();
  void succeeded() { failures_ = 0; }

 private:
  double random();

  Duration first_, max_;
  std::uint64_t state_;
  int failures_ = 0;
};

}  // namespace hw::feeds
