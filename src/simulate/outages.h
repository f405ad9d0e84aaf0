#pragma once
// The spans of time in which a machine is broken down, or its feed is away: one after the other, with exponential times
// between them, so that they know no day and no shift.

#include <cstdint>
#include <vector>

#include "src/simulate/dice.h"

namespace hw::simulate {

struct Span {
  std::int64_t begin_ms = 0;  // floor time since 1970
  std::int64_t end_ms = 0;
};

struct OutageNumbers {
  std::int64_t between_mean_min = 0;  // from the end of one to the begin of the next
  std::int64_t short_mean_s = 0;
  std::int64_t long_mean_s = 0;
  int long_per_mille = 0;  // how many are long
  std::int64_t least_s = 0;
};

inline constexpr OutageNumbers breakdowns{50 * 24 * 60, 3 * 3600, 40 * 3600, 250, 1800};
inline constexpr OutageNumbers feed_losses{40 * 60, 240, 4 * 3600, 40, 5};

class Outages {
 public:
  Outages(OutageNumbers numbers, std::uint64_t seed, std::int64_t begin_ms)
      : numbers_(numbers), dice_(seed), known_until_ms_(begin_ms) {}

  // Those that overlap [begin, end), whole.
  std::vector<Span> between(std::int64_t begin_ms, std::int64_t end_ms);

 private:
  void extend();

  OutageNumbers numbers_;
  Dice dice_;
  std::int64_t known_until_ms_;
  std::vector<Span> spans_;
};

}  // namespace hw::simulate
