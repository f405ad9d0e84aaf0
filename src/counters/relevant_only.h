#pragma once
// Which observations are worth keeping: those that change what a counter counts, about 1 in 20 of what a machine says.
// The hours from what is kept are the hours from all.
//
//   words, loads      where true, false or unknown changes
//   speeds, feeds     where the value changes
//   positions         all, but only until a feed rate is known; then none
//   counts            where the value changes
//   own counters      every 10 s, and at every fall and change between known and unknown
//
// Every UNAVAILABLE is kept: the rule for two clocks asks whether it came before. What was passed over last is
// remembered for each item, up to 64 observations: it is kept after all where a later arrival shows that it mattered (a
// second value at the same time, an older one, a fall).

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "src/counters/machine_model.h"
#include "src/counters/observation.h"
#include "src/counters/settings.h"
#include "src/counters/truth.h"

namespace hw::counters {

class RelevantOnly {
 public:
  RelevantOnly(const MachineModel& model, const CountSettings& settings);

  // The next arrival; what is to be kept is added to `kept`, in order.
  void pass(const Observation& arrival, std::vector<Observation>& kept);
  // Before a break of the feed: what was passed over last counts now.
  void flush(std::vector<Observation>& kept);

  // All that it remembers, in the form of state_archive.h, so that it goes on after a restart as if nothing had been.
  std::string save() const;
  // False: that is no record of this model's.
  bool restore(std::string_view record);

 private:
  enum class Rule : std::uint8_t { none, truth, value, thinned };
  struct ItemState {
    Rule rule = Rule::none;
    bool is_position = false;
    bool is_feed = false;
    std::optional<double> limit;  // of loads
    std::optional<double> holds;  // the value now; nothing where the order of arrival leaves it open
    std::optional<Instant> latest_at;
    std::vector<Observation> passed_over;  // the last ones, by time
    std::optional<Instant> kept_at;
  };

  bool matters(const ItemState& item, const Observation& arrival) const;
  static const Observation* passed_over_last(const ItemState& item);
  static void pass_over(ItemState& item, const Observation& arrival);
  static void revive(ItemState& item, const Observation& arrival, std::vector<Observation>& kept);
  static Truth truth_of(const ItemState& item, double value);
  template <class Archive>
  void archive(Archive& archive);

  std::vector<ItemState> items_;
  bool feed_is_known_ = false;
};

}  // namespace hw::counters
