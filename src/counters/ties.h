#pragma once
// The observations of one moment, as they arrive: the last one of an item wins, and one that an item has already had at
// that moment is a repeat and changes nothing.

#include <cstdint>
#include <set>
#include <span>
#include <utility>
#include <vector>

#include "src/counters/observation.h"

namespace hw::counters {

class Ties {
 public:
  explicit Ties(std::size_t items) : places_(items) {}

  void add(const Observation& observation) {
    if (observation.item < places_.size() && places_[observation.item].moment == moment_) return add_tied(observation);
    if (observation.item < places_.size()) {
      places_[observation.item] = {moment_, static_cast<std::uint32_t>(settled_.size())};
    }
    settled_.push_back(observation);
  }
  // In order of first arrival; at most one for each item (marks are kept as they come).
  std::span<const Observation> settled() const { return settled_; }
  void clear() {
    settled_.clear();
    if (!overruled_.empty()) overruled_.clear();
    ++moment_;
  }

  // The moment that is open goes into a saved state as its settled observations and those that were overruled.
  template <class Archive>
  friend void archive_ties(Archive& archive, Ties& ties);

 private:
  struct Place {
    std::uint64_t moment = 0;
    std::uint32_t index = 0;
  };

  void add_tied(const Observation& observation);

  std::vector<Observation> settled_;
  std::vector<Place> places_;
  std::set<std::pair<std::uint32_t, std::uint64_t>> overruled_;  // item and bits of values that something came after
  std::uint64_t moment_ = 1;
};

}  // namespace hw::counters
