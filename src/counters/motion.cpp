#include "src/counters/motion.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>

namespace hw::counters {
namespace {

// Positions are decimals: 100.001 and 100 differ by 0.001, though as doubles by a little more.
bool differ(double a, double b) { return std::abs(a - b) > dead_band + 1e-9; }

Instant two_seconds_before(Instant at) {
  constexpr std::int64_t first = std::numeric_limits<std::int64_t>::min() + motion_before_position.ns;
  return Instant{std::max(at.ns, first)} - motion_before_position;
}

}  // namespace

MotionFinder::MotionFinder(std::span<const Item> items) : positions_(items.size()) {
  for (std::size_t i = 0; i < items.size(); ++i) positions_[i].is_position = items[i].role == Role::position;
}

void MotionFinder::settle(Instant at, std::span<const Observation> changes, const Next& next) {
  release_before(two_seconds_before(at), next);
  for (const Observation& change : changes) {
    const bool is_position = change.item < positions_.size() && positions_[change.item].is_position;
    if (is_position) {
      take_position(positions_[change.item], change);
    } else {
      put(change);
    }
  }
}

void MotionFinder::take_position(Position& before, const Observation& now) {
  const bool known = !is_unknown(now.value);
  if (known && before.known && differ(now.value, before.value)) {
    put({std::max(before.at, two_seconds_before(now.at)), now.item, 1});
  }
  put({now.at, now.item, known ? 0 : unknown_value});
  before = {true, known, now.value, now.at};
}

void MotionFinder::put(const Observation& observation) {
  const auto first = waiting_.begin() + static_cast<std::ptrdiff_t>(first_waiting_);
  const auto behind = std::upper_bound(first, waiting_.end(), observation.at,
                                       [](Instant at, const Observation& waits) { return at < waits.at; });
  waiting_.insert(behind, observation);
}

void MotionFinder::release_before(Instant end, const Next& next) {
  while (!is_empty() && waiting_[first_waiting_].at < end) release_moment(next);
  drop_handed_on();
}

void MotionFinder::drain(const Next& next) {
  while (!is_empty()) release_moment(next);
  drop_handed_on();
}

void MotionFinder::release_moment(const Next& next) {
  const Instant at = waiting_[first_waiting_].at;
  const std::size_t begin = first_waiting_;
  while (!is_empty() && waiting_[first_waiting_].at == at) ++first_waiting_;
  next(at, std::span<const Observation>(waiting_).subspan(begin, first_waiting_ - begin));
}

// Seldom enough that moving the rest costs nothing, often enough that what is handed on does not pile up.
void MotionFinder::drop_handed_on() {
  if (first_waiting_ * 2 <= waiting_.size()) return;
  waiting_.erase(waiting_.begin(), waiting_.begin() + static_cast<std::ptrdiff_t>(first_waiting_));
  first_waiting_ = 0;
}

}  // namespace hw::counters
