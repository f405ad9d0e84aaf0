#include "src/feeds/follower_state.h"

#include <algorithm>
#include <cctype>

#include "src/feeds/stamped_ahead.h"

namespace hw::feeds {
namespace {

using counters::MachineModel;

// An agent's clock that is behind ours by no more than this says when its document was made.
constexpr Duration transit_max = Duration::seconds(60);
constexpr std::uint64_t count_usual = 100;  // the standard's own, while the agent's buffer is not known
constexpr int detours_max = 6;
constexpr int state_at_tries_max = 2;
constexpr std::size_t tries_max = 2000;

// The same machines, in whatever order.
bool are_same(const std::vector<MachineModel>& a, const std::vector<MachineModel>& b) {
  return a.size() == b.size() && std::all_of(a.begin(), a.end(), [&](const MachineModel& machine) {
           return std::find(b.begin(), b.end(), machine) != b.end();
         });
}

// Up to when a document that holds everything tells the state: when it was made, by the agent's clock if that is to be
// believed, else when it came.
Instant told_until(const StreamsHeader& header, Instant now) {
  const Instant made = header.creation_time.value_or(now);
  return made <= now && made >= now - transit_max ? made : now;
}

// What an agent cannot mean: there would be no end to believing it.
std::optional<Error> lie_in(const StreamsHeader& header) {
  const bool is_beyond_last = header.last_sequence != 0 && header.next_sequence - 1 > header.last_sequence;
  if (!is_beyond_last && header.first_sequence <= header.next_sequence) return std::nullopt;
  return Error{ErrorCode::peer_misbehaved,
               fmt::format("the agent's nextSequence {} does not go with its firstSequence {} and lastSequence {}",
                           header.next_sequence, header.first_sequence, header.last_sequence)};
}

bool is_streams_error(std::string_view body) {
  return body.substr(0, 4096).find("MTConnectError") != std::string_view::npos;
}

// A sign-in page or a wrong address: better said so than by the first character that is no XML.
bool is_page(std::string_view body) {
  std::string head{body.substr(0, 200)};
  std::transform(head.begin(), head.end(), head.begin(),
                 [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  return head.find("<!doctype html") != std::string::npos || head.find("<html") != std::string::npos;
}

}  // namespace

FollowerState::FollowerState(FollowerSettings settings, std::optional<Stored> stored)
    : settings_(std::move(settings)),
      words_(settings_.aliases),
      back_off_(settings_.back_off_first, settings_.back_off_max, settings_.seed) {
  if (!stored || stored->position.next_sequence == 0) {
    cause_ = Cause::first_contact;
  } else {
    position_ = stored->position;
    alive_at_ = stored->alive_at;
  }
  if (stored) machines_ = std::move(stored->machines);
}

Ask FollowerState::next() const {
  switch (phase_) {
    case Phase::probe:
      return {Ask::Kind::document, "/probe", not_before_};
    case Phase::current:
      return {Ask::Kind::document, "/current", not_before_};
    case Phase::state_at:
      return {Ask::Kind::document, fmt::format("/current?at={}", state_at_), not_before_};
    case Phase::sample:
    case Phase::stream:
      break;
  }
  return ask_sample();
}

Ask FollowerState::ask_sample() const {
  const std::uint64_t count = std::min(settings_.count_max, buffer_size_ == 0 ? count_usual : buffer_size_);
  const std::uint64_t from = position_.next_sequence - (asks_one_back_ && position_.next_sequence > 1 ? 1 : 0);
  std::string target = fmt::format("/sample?from={}&count={}", from, count);
  if (phase_ == Phase::sample) return {Ask::Kind::document, std::move(target), not_before_};
  target +=
      fmt::format("&interval={}&heartbeat={}", settings_.interval.ns / 1'000'000, settings_.heartbeat.ns / 1'000'000);
  return {Ask::Kind::stream, std::move(target), not_before_};
}

Outcome FollowerState::answer(int status, std::string_view body, Instant now) {
  if (status != 200 && !is_streams_error(body)) {
    return refuse_answer({ErrorCode::peer_misbehaved, fmt::format("the agent answers with HTTP status {}", status)},
                         now);
  }
  if (is_page(body)) {
    return refuse_answer(
        {ErrorCode::peer_misbehaved, "a web page answers where the agent should: is the address right?"}, now);
  }
  return phase_ == Phase::probe ? hear_probe(body, now) : hear_streams(body, now);
}

Outcome FollowerState::hear_probe(std::string_view body, Instant now) {
  auto document = read_devices(body, settings_.feed + ", probe");
  if (!document) return refuse_answer(document.error(), now);
  model_instance_ = document->instance_id;
  if (model_instance_ != 0 && is_other_instance(model_instance_) && cause_ == Cause::none) cause_ = Cause::restarted;
  take_models(std::move(*document));
  return look_again(cause_ == Cause::none ? Phase::sample : Phase::current, cause_, now);
}

void FollowerState::take_models(DevicesDocument document) {
  if (!are_same(document.machines, machines_)) models_are_news_ = true;
  machines_ = std::move(document.machines);
  model_change_time_ = std::move(document.model_change_time);
  index_.emplace(machines_);
  for (const Note& note : document.notes) notes_.add(note.machine, note.text);
}

Outcome FollowerState::hear_streams(std::string_view body, Instant now) {
  Remarks remarks(machines_, notes_);
  auto heard = hear_document(body, settings_.feed, *index_, words_, remarks);
  if (!heard) return refuse_answer(heard.error(), now);
  if (heard->agent_error) return hear_error(*heard->agent_error, now);
  const StreamsHeader& header = heard->header;
  if (const auto lie = lie_in(header)) return refuse_answer(*lie, now);
  const bool is_restarted = is_other_instance(header.instance_id);
  if (is_restarted && cause_ != Cause::went_back) cause_ = Cause::restarted;
  if (needs_probe(*heard)) return look_again(Phase::probe, cause_, now);
  buffer_size_ = header.buffer_size;
  bound_times(*heard, now);
  if (phase_ == Phase::current) return hear_current(*heard, now);
  if (is_restarted) return look_again(Phase::current, cause_, now);
  if (phase_ == Phase::sample || phase_ == Phase::stream) return hear_sample(*heard, now);
  const Instant to = heard->arrivals.empty() ? alive_at_ : heard->arrivals.back().at;
  return begin_anew(*heard, state_at_ + 1, to, now);
}

bool FollowerState::is_other_instance(std::uint64_t instance_id) const {
  return position_.next_sequence != 0 && instance_id != position_.instance_id;
}

// Whether the document speaks of another model than we know. For each sign of it a probe is asked once: what it does
// not explain is noted and passed over.
bool FollowerState::needs_probe(const HeardDocument& heard) {
  const StreamsHeader& header = heard.header;
  bool needs = header.instance_id != model_instance_ && is_new_try(fmt::format("instance {}", header.instance_id));
  if (!header.model_change_time.empty() && header.model_change_time != model_change_time_) {
    needs = is_new_try("change " + header.model_change_time) || needs;
  }
  Remarks remarks(machines_, notes_);
  for (const auto& [device, id] : heard.unknown_items) {
    if (is_new_try(fmt::format("item {}/{}", device, id))) {
      needs = true;
    } else {
      remarks.unknown_item(device, id);
    }
  }
  return needs;
}

bool FollowerState::is_new_try(std::string what) {
  return tried_.size() < tries_max && tried_.insert(std::move(what)).second;
}

void FollowerState::bound_times(HeardDocument& heard, Instant now) {
  for (Arrival& arrival : heard.arrivals) {
    arrival.at = not_too_far_ahead(arrival.at, now, notes_, machines_[arrival.machine].name);
  }
}

Outcome FollowerState::hear_error(const AgentError& error, Instant now) {
  const bool is_sample = phase_ == Phase::sample || phase_ == Phase::stream;
  if (error.instance_id != 0 && is_other_instance(error.instance_id) && is_sample) {
    return look_again(Phase::probe, Cause::restarted, now);
  }
  if (phase_ == Phase::state_at) {
    // The buffer has moved on; or the agent does not know `at`, and then the state of now has to do.
    overrun_tries_ = error.code == "OUT_OF_RANGE" ? overrun_tries_ + 1 : state_at_tries_max;
    return look_again(Phase::current, Cause::overrun, now);
  }
  if (error.code == "OUT_OF_RANGE" && is_sample) return look_again(Phase::current, Cause::overrun, now);
  if (phase_ == Phase::stream && !has_stream_spoken_) {
    can_stream_ = false;
    return look_again(Phase::sample, Cause::none, now);
  }
  return refuse_answer(error.as_error(), now);
}

Outcome FollowerState::hear_current(const HeardDocument& heard, Instant now) {
  const StreamsHeader& header = heard.header;
  if (cause_ == Cause::overrun) return hear_current_after_overrun(heard, now);
  if (cause_ == Cause::restarted && header.first_sequence == 1 && header.next_sequence > 1) {
    // Everything since the restart is still there: better than the state of now.
    position_ = {header.instance_id, 1};
    replays_ = true;
    cause_ = Cause::none;
    return look_again(Phase::sample, Cause::none, now);
  }
  return begin_anew(heard, header.next_sequence, told_until(header, now), now);
}

// What is lost cannot be asked again; what the buffer still holds can, and `at` tells the state at its beginning. While
// we ask, the beginning may move on: the second try keeps a tenth of the buffer away from it, the third takes the state
// of now.
Outcome FollowerState::hear_current_after_overrun(const HeardDocument& heard, Instant now) {
  const StreamsHeader& header = heard.header;
  const std::uint64_t expected = position_.next_sequence;
  if (header.next_sequence < expected) {
    cause_ = Cause::went_back;
    return begin_anew(heard, header.next_sequence, told_until(header, now), now);
  }
  if (header.first_sequence <= expected) {
    asks_one_back_ = asks_one_back_ || header.next_sequence == expected;
    cause_ = Cause::none;
    return look_again(Phase::sample, Cause::none, now);
  }
  if (overrun_tries_ >= state_at_tries_max)
    return begin_anew(heard, header.next_sequence, told_until(header, now), now);
  state_at_ = header.first_sequence;
  if (overrun_tries_ == 1) state_at_ += (header.next_sequence - header.first_sequence) / 10;
  return look_again(Phase::state_at, Cause::overrun, now);
}

Outcome FollowerState::hear_sample(const HeardDocument& heard, Instant now) {
  const std::uint64_t expected = position_.next_sequence;
  if (heard.header.next_sequence < expected) {
    notes_.add("",
               fmt::format("the agent's sequence numbers went back under the same instanceId {}: nothing is counted "
                           "twice, the time between is unknown",
                           position_.instance_id));
    return look_again(Phase::current, Cause::went_back, now);
  }
  if (heard.header.first_sequence > expected) return look_again(Phase::current, Cause::overrun, now);
  return go_on(heard, now);
}

// All that is known from the document as the state of the moment `to`. Its stamps may be weeks old: they say since when
// a value holds, and that has been counted already, or cannot be.
Outcome FollowerState::begin_anew(const HeardDocument& heard, std::uint64_t next_sequence, Instant to, Instant now) {
  Batch batch = begin_batch(now);
  to = std::max(alive_at_, std::min(to, now));
  if (cause_ == Cause::overrun) {
    interrupt(batch, to, "the agent's buffer overran: observations were lost");
  } else if (cause_ != Cause::first_contact) {
    interrupt(batch, to,
              cause_ == Cause::restarted ? "the agent was restarted" : "the agent's sequence numbers went back");
  }
  for (const Arrival& arrival : heard.arrivals) add(batch, arrival, to);
  if (cause_ != Cause::first_contact) not_before_ = now + settings_.interval;
  position_ = {heard.header.instance_id, next_sequence};
  alive_at_ = to;
  phase_ = Phase::sample;
  cause_ = Cause::none;
  replays_ = false;
  overrun_tries_ = 0;
  const std::uint64_t last = heard.header.last_sequence;
  view_.behind = last < next_sequence ? 0 : last - next_sequence + 1;
  return deliver(std::move(batch), true, now);
}

// The steady state: what follows on what we know.
Outcome FollowerState::go_on(const HeardDocument& heard, Instant now) {
  const StreamsHeader& header = heard.header;
  const std::uint64_t expected = position_.next_sequence;
  const auto is_due = [&](const Arrival& arrival) {
    return arrival.sequence >= expected && arrival.sequence < header.next_sequence;
  };
  Batch batch = begin_batch(now);
  if (replays_) {
    const Instant began_at = heard.arrivals.empty() ? told_until(header, now) : heard.arrivals.front().at;
    interrupt(batch, std::max(alive_at_, std::min(began_at, now)), "the agent was restarted");
    replays_ = false;
  }
  const bool is_caught_up =
      header.last_sequence == 0 ? heard.tally.observations == 0 : header.next_sequence > header.last_sequence;
  Instant told_at = is_caught_up ? told_until(header, now) : alive_at_;
  for (const Arrival& arrival : heard.arrivals) {
    if (!is_due(arrival)) continue;
    add(batch, arrival, arrival.at);
    if (!is_caught_up) told_at = std::max(told_at, std::min(arrival.at, now));
  }
  alive_at_ = std::max(alive_at_, told_at);
  position_ = {header.instance_id, header.next_sequence};
  const bool was_stream = phase_ == Phase::stream;
  if (was_stream) {
    has_stream_spoken_ = true;
    silent_streams_ = 0;
  }
  choose_next(header, is_caught_up, header.next_sequence == expected, now);
  return deliver(std::move(batch), was_stream && phase_ != Phase::stream, now);
}

// Behind: ask on at once, but not in a circle. Caught up: let the agent tell by itself, where it can.
void FollowerState::choose_next(const StreamsHeader& header, bool is_caught_up, bool is_stuck, Instant now) {
  view_.behind =
      is_caught_up || header.last_sequence < header.next_sequence ? 0 : header.last_sequence - header.next_sequence + 1;
  not_before_ = now;
  if (phase_ == Phase::stream && view_.behind <= settings_.count_max) return;
  phase_ = is_caught_up && can_stream_ ? Phase::stream : Phase::sample;
  has_stream_spoken_ = false;
  if (phase_ == Phase::sample && (is_caught_up || is_stuck)) not_before_ = now + settings_.interval;
}

Batch FollowerState::begin_batch(Instant now) const {
  Batch batch;
  batch.feed = settings_.feed;
  batch.received_at = now;
  batch.machines.resize(machines_.size());
  for (std::size_t m = 0; m < machines_.size(); ++m) batch.machines[m].machine = machines_[m].name;
  return batch;
}

// From the last sign of life to `to` nothing is known of any item of any machine.
void FollowerState::interrupt(Batch& batch, Instant to, std::string_view why) {
  if (alive_at_ == Instant{}) return;
  for (std::size_t m = 0; m < machines_.size(); ++m) {
    batch.interruptions.push_back({machines_[m].name, alive_at_, to, std::string(why)});
    const auto& items = machines_[m].items;
    for (std::size_t n = 0; n < items.size(); ++n) {
      if (items[n].role == counters::Role::none) continue;
      batch.machines[m].observations.push_back({alive_at_, static_cast<std::uint32_t>(n), counters::unknown_value});
    }
  }
}

void FollowerState::add(Batch& batch, const Arrival& arrival, Instant not_before) const {
  MachineBatch& machine = batch.machines[arrival.machine];
  counters::Observation observation = arrival.observation();
  observation.at = std::max(observation.at, not_before);
  machine.observations.push_back(observation);
  if (arrival.reset) machine.resets.push_back({arrival.item, observation.at});
}

Outcome FollowerState::deliver(Batch batch, bool leaves_stream, Instant now) {
  std::erase_if(batch.machines, [](const MachineBatch& machine) { return machine.observations.empty(); });
  batch.position = position_;
  batch.alive_at = alive_at_;
  batch.notes = notes_.take();
  if (models_are_news_) batch.models = machines_;
  models_are_news_ = false;
  detours_ = 0;
  back_off_.succeeded();
  if (!view_.connected_since) view_.connected_since = now;
  view_.last_sign_at = now;
  view_.last_error.clear();
  view_.next_try_at.reset();
  return {std::move(batch), leaves_stream};
}

// The answer was one, but another question comes first. Too many of them in a row, and the agent leads us round.
Outcome FollowerState::look_again(Phase phase, Cause cause, Instant now) {
  phase_ = phase;
  cause_ = cause;
  not_before_ = now;
  if (++detours_ > detours_max) {
    return refuse_answer({ErrorCode::peer_misbehaved, "the agent's answers contradict each other and lead nowhere"},
                         now);
  }
  return {std::nullopt, true};
}

Outcome FollowerState::refuse_answer(const Error& error, Instant now) {
  failed(error, now);
  return {std::nullopt, true};
}

// Where a stream was asked in vain twice, polling may do.
void FollowerState::failed(const Error& error, Instant now) {
  if (phase_ == Phase::stream) {
    if (!has_stream_spoken_ && ++silent_streams_ > 1) can_stream_ = false;
    phase_ = Phase::sample;
  }
  if (phase_ == Phase::state_at) phase_ = Phase::current;
  detours_ = 0;
  not_before_ = now + back_off_.after_failure();
  view_.connected_since.reset();
  view_.last_error = error.message;
  view_.last_error_code = error.code;
  view_.next_try_at = not_before_;
}

}  // namespace hw::feeds
