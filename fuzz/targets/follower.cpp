// An agent that answers anything at all, one document after the other (parted by lines of "%%"): what is handed on goes
// forward only, is stamped at most 15 minutes ahead of the clock, and counts no faster than time.

#include <optional>

#include "fuzz/lathe.h"
#include "fuzz/pieces.h"
#include "fuzz/targets.h"
#include "libs/values/assert.h"
#include "src/feeds/follower_state.h"

namespace hw::fuzz {
namespace {

// The server's side of the feed: what has come so far.
class Followed {
 public:
  void take(const feeds::Batch& batch) {
    HW_ASSERT(!alive_at_ || batch.alive_at >= *alive_at_, "the agent's sign of life never goes back");
    HW_ASSERT(batch.alive_at <= batch.received_at, "nothing is known of the time to come");
    alive_at_ = batch.alive_at;
    if (batch.models) models_ = *batch.models;
    for (const feeds::Interruption& gap : batch.interruptions) HW_ASSERT(gap.from <= gap.to, "a gap has two ends");
    for (const feeds::MachineBatch& machine : batch.machines) take(machine, batch.received_at);
  }

 private:
  void take(const feeds::MachineBatch& batch, Instant received_at) const {
    for (const counters::MachineModel& model : models_) {
      if (model.name != batch.machine) continue;
      for (const counters::Observation& one : batch.observations) {
        HW_ASSERT(one.item < model.items.size(), "an observation is of an item that the machine has");
        HW_ASSERT(one.at <= received_at + counters::clock_skew_max, "nothing is stamped far ahead");
      }
      expect_no_more_than_time(counted(model, batch.observations), count_end);
      return;
    }
    HW_ASSERT(false, "what is handed on is of a machine that was told");
  }

  std::vector<counters::MachineModel> models_;
  std::optional<Instant> alive_at_;
};

}  // namespace

void follower(std::string_view input) {
  feeds::FollowerSettings settings;
  settings.feed = "f";
  feeds::FollowerState state(std::move(settings), std::nullopt);
  Followed followed;
  Instant now = count_begin;
  while (!input.empty()) {
    const std::string_view document = take_until(input, "\n%%\n");
    now = now + Duration::seconds(1);
    HW_ASSERT(state.next().path_and_query.starts_with('/'), "there is always something to ask");
    const feeds::Outcome outcome = state.answer(200, document, now);
    if (outcome.batch) followed.take(*outcome.batch);
  }
}

}  // namespace hw::fuzz
