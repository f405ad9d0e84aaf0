// A machine's count as it was at an earlier moment: from the newest state that was kept before it, and from what has
// been logged since.

#include <algorithm>

#include "src/counters/packed.h"
#include "src/counters/two_clocks.h"
#include "src/service/machine_count.h"

namespace hw::service {

using counters::LiveCount;
using counters::Observation;

// The newest state that was settled before the moment, as long as it is of this model.
Result<std::optional<MachineCount::Earlier>> MachineCount::checkpoint_before(Store& store, const std::string& machine,
                                                                             Instant moment) const {
  for (LocalDate on = settings_.counting.zone.date_of(moment);;) {
    HW_TAKE(checkpoint, store.checkpoint_of(machine, on));
    if (!checkpoint) return std::optional<Earlier>{};
    HW_TAKE(state, parse_machine_state(checkpoint->state));
    auto live = LiveCount::restore(live_->model(), settings_, state.live);
    if (!live || live->begin() != live_->begin()) return std::optional<Earlier>{};  // of another model
    if (live->settled_until() <= moment) return std::optional{Earlier{std::move(*live), checkpoint->on}};
    on = checkpoint->on - 1;
  }
}

// Before the first checkpoint there is the beginning, as long as the whole log is of this model.
Result<std::optional<MachineCount::Earlier>> MachineCount::count_before(Store& store, const std::string& machine,
                                                                        Instant moment) const {
  HW_TAKE(earlier, checkpoint_before(store, machine, moment));
  if (!earlier && carried_.totals.empty()) earlier = Earlier{LiveCount(live_->model(), settings_, live_->begin()), {}};
  return std::move(earlier);
}

Result<std::optional<std::vector<CounterNow>>> MachineCount::at_past(Store& store, const std::string& machine,
                                                                     Instant moment) const {
  std::vector<CounterNow> counters;
  const bool is_first_model = carried_.totals.empty();
  if (!live_ || (is_first_model && moment < live_->begin())) return std::optional{counters};  // nothing was counted yet
  HW_TAKE(earlier, count_before(store, machine, moment));
  if (!earlier) return std::optional<std::vector<CounterNow>>{};
  HW_TAKE(arrivals, logged_since(store, machine, earlier->checkpoint_on));
  std::erase_if(arrivals, [&](const Observation& one) { return one.at > moment; });
  LiveCount& live = earlier->live;
  if (const auto told = live_->told_until()) live.alive_until(*told);
  live.take(arrivals, moment);
  for (const auto& total : live.snapshot(moment).totals) counters.push_back(counter_now(total, moment));
  add_carried(counters, moment);
  return std::optional{std::move(counters)};
}

// By time. What was passed over last and is not in the log counts all the same.
Result<std::vector<Observation>> MachineCount::logged_since(Store& store, const std::string& machine,
                                                            std::optional<LocalDate> checkpoint_on) const {
  std::vector<Observation> arrivals;
  counters::TwoClocks clocks(live_->model().items.size());
  const auto take = [&](std::span<const Observation> observations) {
    for (Observation one : observations) {
      if (clocks.pass(one)) arrivals.push_back(one);
    }
  };
  const auto take_piece = [&](const LogPiece& piece) -> Result<void> {
    HW_TAKE(observations, counters::unpack(piece.payload));
    take(observations);
    return {};
  };
  HW_TRY(store.read_log(machine, checkpoint_on, take_piece));
  for (const LogPiece& piece : log_) HW_TRY(take_piece(piece));
  std::vector<Observation> passed_over;
  counters::RelevantOnly{*relevant_}.flush(passed_over);
  take(passed_over);
  std::stable_sort(arrivals.begin(), arrivals.end(), [](const auto& a, const auto& b) { return a.at < b.at; });
  return arrivals;
}

}  // namespace hw::service
