#include "src/counters/ties.h"

#include <bit>

namespace hw::counters {
namespace {

// All values that nobody knows are one, and so are both zeros.
std::uint64_t identity_of(double value) {
  if (is_unknown(value)) return std::bit_cast<std::uint64_t>(unknown_value);
  return std::bit_cast<std::uint64_t>(value == 0 ? 0.0 : value);
}

}  // namespace

void Ties::add_tied(const Observation& observation) {
  Observation& holds = settled_[places_[observation.item].index];
  const std::uint64_t value = identity_of(observation.value);
  if (value == identity_of(holds.value) || overruled_.contains({observation.item, value})) return;
  overruled_.emplace(observation.item, identity_of(holds.value));
  holds.value = observation.value;
}

}  // namespace hw::counters
