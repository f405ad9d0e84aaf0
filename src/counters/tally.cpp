#include "src/counters/tally.h"

namespace hw::counters {

Tally& Tally::operator+=(const Tally& more) {
  for (std::size_t truth = 0; truth < truths; ++truth) ns[truth] += more.ns[truth];
  filled_ns += more.filled_ns;
  starts += more.starts;
  amount += more.amount;
  return *this;
}

}  // namespace hw::counters
