#include "src/feeds/agent_chain.h"

#include <algorithm>
#include <span>

#include "src/feeds/device_model.h"
#include "src/feeds/json_document.h"
#include "src/feeds/stamped_ahead.h"

namespace hw::feeds {
namespace {

// An agent's clock that is behind ours by no more than this says when its document was made.
constexpr Duration on_the_way_max = Duration::seconds(60);

}  // namespace

// A streams document with what follows from where it came from.
struct AgentChain::Told {
  HeardDocument heard;
  std::string run;
  Instant until;  // up to when it tells
  Instant now;
};

AgentChain::AgentChain(std::string device, const Aliases& aliases, StoredRun stored)
    : device_(std::move(device)),
      words_(aliases),
      position_(std::move(stored.position)),
      proven_at_(position_.alive_at) {
  if (position_.next_sequence > 0) seen_before_ = position_.next_sequence - 1;
  if (stored.model) set_model(std::move(*stored.model));
}

void AgentChain::set_model(counters::MachineModel model) {
  model_ = std::move(model);
  index_.emplace(std::span(&*model_, 1));
  seen_.assign(model_->items.size(), 0);
  if (position_.next_sequence > 0) seen_before_ = position_.next_sequence - 1;
}

Result<std::optional<RunBatch>> AgentChain::hear(const DocumentMessage& message, Instant now) {
  HW_TAKE(xml, xml_of_json(message.body, device_));
  if (message.kind == DocumentKind::probe) return hear_probe(xml, now);
  if (!model_) return std::optional<RunBatch>{};
  Remarks remarks(std::span(&*model_, 1), notes_);
  HW_TAKE(heard, hear_document(xml, device_, *index_, words_, remarks));
  if (heard.agent_error) return refuse(heard.agent_error->as_error().at(device_));
  if (heard.header.next_sequence - 1 < heard.tally.sequence_max) {
    return refuse(ErrorCode::peer_misbehaved, "{}: the agent's nextSequence {} comes before its observation {}",
                  device_, heard.header.next_sequence, heard.tally.sequence_max);
  }
  for (const auto& [device, id] : heard.unknown_items) remarks.unknown_item(device, id);
  bound_times(heard, now);
  const Instant made_at =
      std::min(heard.header.creation_time.value_or(message.is_retained ? position_.alive_at : now), now);
  const Instant until = message.is_retained || made_at >= now - on_the_way_max ? made_at : now;
  std::string run = std::to_string(heard.header.instance_id);
  const Told told{std::move(heard), std::move(run), until, now};
  return message.kind == DocumentKind::current ? hear_current(told) : hear_sample(told);
}

Result<std::optional<RunBatch>> AgentChain::hear_probe(std::string_view xml, Instant now) {
  HW_TAKE(document, read_devices(xml, device_));
  const auto found = std::find_if(document.machines.begin(), document.machines.end(),
                                  [&](const auto& machine) { return machine.uuid == device_; });
  if (found == document.machines.end()) {
    return refuse(ErrorCode::bad_input, "{}: the probe is of another device", device_);
  }
  for (const Note& note : document.notes) notes_.add(note.machine, note.text);
  if (model_ == *found) return std::optional<RunBatch>{};
  set_model(std::move(*found));
  RunBatch batch;
  batch.model = model_;
  return std::optional{finish(std::move(batch), now)};
}

void AgentChain::bound_times(HeardDocument& heard, Instant now) {
  for (Arrival& arrival : heard.arrivals) {
    arrival.at = not_too_far_ahead(arrival.at, now, notes_, device_);
  }
}

std::optional<RunBatch> AgentChain::hear_current(const Told& told) {
  const HeardDocument& heard = told.heard;
  if (position_.next_sequence == 0) return begin_anew(told, "", {});
  if (told.run != position_.run) {
    if (told.until <= position_.alive_at) return std::nullopt;  // of an instance before this one
    return begin_anew(told, "the agent was restarted", position_.alive_at);
  }
  const bool has_news = heard.tally.sequence_max >= position_.next_sequence;
  if (has_missed(heard)) return begin_anew(told, "documents of the agent were lost", proven_at_);
  if (has_news && awaits_current_) return begin_anew(told, "documents of the agent were lost", position_.alive_at);
  proven_at_ = position_.alive_at;
  if (heard.header.next_sequence < position_.next_sequence) return std::nullopt;  // an older one
  if (has_news) {
    mark_owed(heard);
    return std::nullopt;
  }
  awaits_current_ = false;
  return go_on(told, told.until);
}

// What follows on what we know; without the Current that a connection begins with, that cannot be said.
std::optional<RunBatch> AgentChain::hear_sample(const Told& told) {
  const StreamsHeader& header = told.heard.header;
  if (told.run != position_.run && told.until > position_.alive_at) awaits_current_ = true;
  if (awaits_current_ || told.run != position_.run || header.next_sequence <= position_.next_sequence) {
    return std::nullopt;
  }
  if (lacks_owed(told.heard)) {
    awaits_current_ = true;
    return std::nullopt;
  }
  const bool is_caught_up = header.next_sequence > header.last_sequence;
  Instant until = is_caught_up ? told.until : position_.alive_at;
  if (!is_caught_up) {
    for (const Arrival& arrival : told.heard.arrivals) until = std::max(until, std::min(arrival.at, told.now));
  }
  return go_on(told, until);
}

RunBatch AgentChain::go_on(const Told& told, Instant alive_at) {
  RunBatch batch;
  for (const Arrival& arrival : told.heard.arrivals) {
    if (arrival.sequence < position_.next_sequence) continue;
    batch.observations.push_back(arrival.observation());
    mark_seen(arrival);
  }
  position_.next_sequence = told.heard.header.next_sequence;
  position_.alive_at = std::max(position_.alive_at, alive_at);
  std::erase_if(owed_, [&](std::uint64_t sequence) { return sequence < position_.next_sequence; });
  return finish(std::move(batch), told.now);
}

// The state of the moment that the document tells of; `why` is empty at the first contact. Its stamps may be weeks old:
// they say since when a value holds, and that has been counted already, or cannot be.
std::optional<RunBatch> AgentChain::begin_anew(const Told& told, std::string_view why, Instant unknown_from) {
  const Instant to = std::max(position_.alive_at, told.until);
  RunBatch batch;
  if (!why.empty()) {
    batch.interruption = Interruption{model_->name, unknown_from, to, std::string(why)};
    for (std::size_t n = 0; n < model_->items.size(); ++n) {
      if (model_->items[n].role == counters::Role::none) continue;
      batch.observations.push_back({unknown_from, static_cast<std::uint32_t>(n), counters::unknown_value});
    }
  }
  for (const Arrival& arrival : told.heard.arrivals) {
    counters::Observation observation = arrival.observation();
    observation.at = std::max(observation.at, to);
    batch.observations.push_back(observation);
  }
  const std::uint64_t next = told.heard.header.next_sequence;
  const bool is_same_run = told.run == position_.run;
  position_ = {told.run, is_same_run ? std::max(next, position_.next_sequence) : next, to};
  seen_before_ = position_.next_sequence - 1;
  seen_.assign(model_->items.size(), 0);
  owed_.clear();
  proven_at_ = to;
  awaits_current_ = false;
  return finish(std::move(batch), told.now);
}

void AgentChain::mark_owed(const HeardDocument& heard) {
  owed_.clear();
  for (const Arrival& arrival : heard.arrivals) {
    if (arrival.sequence >= position_.next_sequence) owed_.push_back(arrival.sequence);
  }
}

bool AgentChain::lacks_owed(const HeardDocument& heard) const {
  return std::any_of(owed_.begin(), owed_.end(), [&](std::uint64_t sequence) {
    return sequence < heard.header.next_sequence &&
           std::none_of(heard.arrivals.begin(), heard.arrivals.end(),
                        [&](const Arrival& arrival) { return arrival.sequence == sequence; });
  });
}

void AgentChain::mark_seen(const Arrival& arrival) {
  std::uint64_t& seen = seen_[arrival.item];
  seen = std::max(seen, arrival.sequence);
}

bool AgentChain::has_missed(const HeardDocument& heard) const {
  return std::any_of(heard.arrivals.begin(), heard.arrivals.end(), [&](const Arrival& arrival) {
    return arrival.sequence < position_.next_sequence && arrival.sequence > std::max(seen_before_, seen_[arrival.item]);
  });
}

RunBatch AgentChain::finish(RunBatch batch, Instant now) {
  batch.device = device_;
  batch.received_at = now;
  batch.position = position_;
  batch.notes = notes_.take();
  return batch;
}

}  // namespace hw::feeds
