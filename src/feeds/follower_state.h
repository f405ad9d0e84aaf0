#pragma once
// Follows an agent, without I/O and without a clock: it says what to ask next, and is told what came. (AgentFollower
// joins it with a connection.)
//
//   probe --> current --> sample ... sample --> stream        first contact
//   probe --> sample ... --> stream                           after a stop: on from the stored position
//   probe --> current --> sample from 1 ...                   the agent was restarted
//   current --> current?at= --> sample ...                    its buffer overran
//
// The sources for what an agent may do are in mtconnect.md, section 1. What is lost and why is said in interruptions;
// what an agent must not do (sequence numbers that fall under the same instanceId, a nextSequence beyond its last one,
// other documents) ends in a note or an error and a later try, and never in time that is counted twice.

#include <cstdint>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "src/feeds/back_off.h"
#include "src/feeds/batch.h"
#include "src/feeds/device_model.h"
#include "src/feeds/heard_document.h"
#include "src/feeds/item_index.h"

namespace hw::feeds {

struct FollowerSettings {
  std::string feed;                          // its name
  std::uint64_t count_max = 5000;            // observations asked at once; never more than the agent's buffer
  Duration interval = Duration::seconds(1);  // between two parts of a stream, and between two polls
  Duration heartbeat = Duration::seconds(10);
  Duration back_off_first = Duration::seconds(1);
  Duration back_off_max = Duration::seconds(60);
  std::uint64_t seed = 1;                                   // of the waits
  std::map<std::string, std::string, std::less<>> aliases;  // of Execution words
};

struct Ask {
  enum class Kind { document, stream };
  Kind kind = Kind::document;
  std::string path_and_query;  // "/sample?from=17&count=100"
  Instant not_before;
};

// What a page shows of a feed.
struct FollowerView {
  std::optional<Instant> connected_since;  // nothing: not connected
  std::optional<Instant> last_sign_at;     // the last document that was one
  std::uint64_t behind = 0;                // observations that the agent has and we have not
  std::string last_error;                  // empty while all is well
  ErrorCode last_error_code{};             // of that error
  std::optional<Instant> next_try_at;      // after an error
};

struct Outcome {
  std::optional<Batch> batch;
  bool leaves_stream = false;  // the stream that it came in is of no more use: next() says what to ask instead
};

class FollowerState {
 public:
  FollowerState(FollowerSettings settings, std::optional<Stored> stored);

  Ask next() const;

  // A whole answer, or one part of a stream (status 200). An MTConnectError counts as such whatever its status.
  Outcome answer(int status, std::string_view body, Instant now);
  // No answer, or one that is none.
  void failed(const Error& error, Instant now);
  // The stream that was asked came as one document: this agent is polled from now on.
  void cannot_stream() { can_stream_ = false; }

  const FollowerView& view() const { return view_; }
  const Position& position() const { return position_; }
  const std::vector<counters::MachineModel>& machines() const { return machines_; }

 private:
  enum class Phase { probe, current, state_at, sample, stream };
  // Why a new beginning is needed.
  enum class Cause { none, first_contact, restarted, went_back, overrun };

  Outcome hear_probe(std::string_view body, Instant now);
  Outcome hear_streams(std::string_view body, Instant now);
  Outcome hear_error(const AgentError& error, Instant now);
  Outcome hear_current(const HeardDocument& heard, Instant now);
  Outcome hear_current_after_overrun(const HeardDocument& heard, Instant now);
  Outcome hear_sample(const HeardDocument& heard, Instant now);
  Outcome begin_anew(const HeardDocument& heard, std::uint64_t next_sequence, Instant to, Instant now);
  Outcome go_on(const HeardDocument& heard, Instant now);
  void choose_next(const StreamsHeader& header, bool is_caught_up, bool is_stuck, Instant now);
  Outcome look_again(Phase phase, Cause cause, Instant now);
  Outcome refuse_answer(const Error& error, Instant now);
  Outcome deliver(Batch batch, bool leaves_stream, Instant now);

  bool needs_probe(const HeardDocument& heard);
  bool is_new_try(std::string what);
  bool is_other_instance(std::uint64_t instance_id) const;
  void take_models(DevicesDocument document);
  void bound_times(HeardDocument& heard, Instant now);
  void interrupt(Batch& batch, Instant to, std::string_view why);
  void add(Batch& batch, const Arrival& arrival, Instant not_before) const;
  Batch begin_batch(Instant now) const;
  Ask ask_sample() const;

  FollowerSettings settings_;
  Vocabulary words_;
  BackOff back_off_;
  FollowerView view_;
  Notes notes_;

  Phase phase_ = Phase::probe;
  Cause cause_ = Cause::none;
  Position position_;
  Instant alive_at_;
  std::vector<counters::MachineModel> machines_;
  std::optional<ItemIndex> index_;
  bool models_are_news_ = false;  // they have not gone out in a batch yet
  std::uint64_t model_instance_ = 0;
  std::string model_change_time_;
  std::set<std::string> tried_;  // change times and ids for which a probe has been asked already
  std::uint64_t buffer_size_ = 0;
  std::uint64_t state_at_ = 0;  // the sequence of a current?at=
  int overrun_tries_ = 0;
  bool replays_ = false;        // a sample from 1 after a restart, whose interruption is still to be told
  bool asks_one_back_ = false;  // the agent refuses from = nextSequence
  bool can_stream_ = true;
  bool has_stream_spoken_ = false;  // a part has come since the stream was asked
  int silent_streams_ = 0;          // asked one after the other without a part
  int detours_ = 0;                 // answers since the last batch that only led to another question
  Instant not_before_;
};

}  // namespace hw::feeds
