// Anything at all over a message broker, one message after the other (parted by lines of "%%"; the first line is the
// topic, with "!" in front where the broker had kept it): what is handed on goes forward only, is stamped at most 15
// minutes ahead of the clock, and counts no faster than time.

#include <optional>

#include "fuzz/lathe.h"
#include "fuzz/pieces.h"
#include "fuzz/targets.h"
#include "libs/values/assert.h"
#include "src/feeds/broker_state.h"

namespace hw::fuzz {
namespace {

// The server's side: what has come so far of the one machine.
class CountedRun {
 public:
  void take(const feeds::RunBatch& batch) {
    HW_ASSERT(batch.position.alive_at >= alive_at_, "the sign of life never goes back");
    HW_ASSERT(batch.position.alive_at <= batch.received_at, "nothing is known of the time to come");
    HW_ASSERT(batch.device == "m", "what is handed on is of a machine that is followed");
    alive_at_ = batch.position.alive_at;
    if (batch.model) model_ = batch.model;
    if (batch.interruption) HW_ASSERT(batch.interruption->from <= batch.interruption->to, "a gap has two ends");
    HW_ASSERT(model_ || batch.observations.empty(), "what is handed on is of a machine that was told");
    for (const counters::Observation& one : batch.observations) {
      HW_ASSERT(one.item < model_->items.size(), "an observation is of an item that the machine has");
      HW_ASSERT(one.at <= batch.received_at + counters::clock_skew_max, "nothing is stamped far ahead");
    }
    if (model_) expect_no_more_than_time(counted(*model_, batch.observations), count_end);
  }

 private:
  std::optional<counters::MachineModel> model_;
  Instant alive_at_;
};

void follow(std::string_view input, std::string feed) {
  feeds::BrokerState state(std::move(feed), {}, {{"m", {}}});
  CountedRun run;
  Instant now = count_begin;
  (void)state.begin_session(now);
  while (!input.empty()) {
    std::string_view payload = take_until(input, "\n%%\n");
    std::string_view topic = take_until(payload, "\n");
    const bool is_retained = topic.starts_with('!');
    if (is_retained) topic.remove_prefix(1);
    now = now + Duration::seconds(1);
    const feeds::BrokerOutcome outcome = state.hear({topic, payload, is_retained}, now);
    if (outcome.batch) run.take(*outcome.batch);
    for (const auto& said : outcome.publications) {
      HW_ASSERT(feeds::parse_topic(said.topic) && feeds::parse_place(said.payload), "what is said can be read");
    }
    (void)state.ask_again(now);
  }
}

}  // namespace

void messages(std::string_view input) {
  follow(input, "f");
  follow(input, "");
}

}  // namespace hw::fuzz
