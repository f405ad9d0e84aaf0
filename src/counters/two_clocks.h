#pragma once
// The rule for two clocks that disagree. An agent stamps UNAVAILABLE with its own clock when it loses a machine, values
// carry the machine's. Where the machine's is ahead, the last values would sort behind their own UNAVAILABLE and hold
// until the machine is back, for days. So an UNAVAILABLE that arrives after a value of its item that is stamped up to
// 900 s later takes that value's time.
//
// Of the values before it two are looked at: the latest by its stamp, and the last that arrived (the first may be one
// that went astray into the future). An UNAVAILABLE that comes again is dropped, since by then later values have come.

#include <cstdint>
#include <unordered_set>
#include <vector>

#include "src/counters/observation.h"

namespace hw::counters {

class TwoClocks {
 public:
  explicit TwoClocks(std::size_t items) : stamps_(items) {}

  // The next arrival; its time may be set right. False: it is an UNAVAILABLE that came before, and is dropped.
  bool pass(Observation& arrival) {
    Stamps& stamps = stamps_[arrival.item];
    if (is_unknown(arrival.value)) return pass_unknown(arrival, stamps);
    stamps.last_arrived = arrival.at.ns;
    if (arrival.at.ns > stamps.latest) stamps.latest = arrival.at.ns;
    return true;
  }

  // Live, UNAVAILABLEs from before this time are not remembered any longer.
  void forget_before(Instant time);
  std::size_t remembered() const { return unknowns_.size(); }

 private:
  template <class Archive>
  friend void archive_clocks(Archive& archive, TwoClocks& clocks);

  static constexpr std::int64_t never = INT64_MIN;
  struct Stamps {
    std::int64_t latest = never;  // of all values so far
    std::int64_t last_arrived = never;
  };
  struct Unknown {
    std::int64_t at = 0;
    std::uint32_t item = 0;
    bool operator==(const Unknown&) const = default;
  };
  struct Hash {
    std::size_t operator()(const Unknown& unknown) const {
      return (static_cast<std::uint64_t>(unknown.at) ^ (std::uint64_t{unknown.item} << 40)) * 0x9e3779b97f4a7c15;
    }
  };

  bool pass_unknown(Observation& arrival, const Stamps& stamps);

  std::vector<Stamps> stamps_;  // by item
  std::unordered_set<Unknown, Hash> unknowns_;
};

}  // namespace hw::counters
