#include "src/feeds/message_chain.h"

#include <algorithm>
#include <span>

#include "src/feeds/stamped_ahead.h"

namespace hw::feeds {
namespace {

constexpr Duration wanted_every = Duration::seconds(1);

bool is_word_role(counters::Role role) {
  return role == counters::Role::execution || role == counters::Role::power_state ||
         role == counters::Role::availability;
}

std::string text_of(const boost::json::value& value) {
  if (!value.is_string()) return formats::print_json(value);
  const auto& text = value.get_string();
  return {text.data(), text.size()};
}

}  // namespace

// Values of one message on their way into its batch.
class MessageChain::Arriving : public ArrivalSink {
 public:
  Arriving(RunBatch& batch, std::span<const counters::MachineModel> machines, Notes& notes)
      : batch_(batch), remarks_(machines, notes) {}
  void observation(const Arrival& arrival) override { batch_.observations.push_back(arrival.observation()); }
  void odd_word(std::uint32_t machine, std::uint32_t item, std::string_view word) override {
    remarks_.odd_word(machine, item, word);
  }
  void unknown_item(std::string_view device, std::string_view id) { remarks_.unknown_item(device, id); }

 private:
  RunBatch& batch_;
  Remarks remarks_;
};

MessageChain::MessageChain(std::string device, const Aliases& aliases, StoredRun stored)
    : device_(std::move(device)), words_(aliases), position_(std::move(stored.position)) {
  if (stored.model) set_model(std::move(*stored.model));
}

void MessageChain::set_model(counters::MachineModel model) {
  model_ = std::move(model);
  index_.emplace(std::span(&*model_, 1));
}

RunBatch MessageChain::begin_batch(Instant now) {
  RunBatch batch;
  batch.device = device_;
  batch.received_at = now;
  return batch;
}

std::optional<RunBatch> MessageChain::hear(const ModelMessage& message, Instant now) {
  keeps_ = message.keeps.value_or(true);
  counters::MachineModel model = model_of(message);
  if (model_ == model) return std::nullopt;
  set_model(std::move(model));
  RunBatch batch = begin_batch(now);
  batch.model = model_;
  batch.position = position_;
  batch.notes = notes_.take();
  return batch;
}

std::optional<RunBatch> MessageChain::hear(const ObservationMessage& message, Instant now) {
  const bool is_other_run = position_.next_sequence != 0 && message.run != position_.run;
  if (is_other_run && message.alive_at <= position_.alive_at) return std::nullopt;
  if (!is_next(message)) return std::nullopt;
  RunBatch batch = begin_batch(now);
  const bool is_gap = !is_other_run && position_.next_sequence != 0 && message.sequence > position_.next_sequence;
  if (is_other_run) interrupt(batch, message, "the publisher began a new run");
  if (is_gap) interrupt(batch, message, "messages were lost, and the publisher does not keep them");
  add_observations(batch, message, is_other_run || is_gap ? position_.alive_at : Instant{INT64_MIN}, now);
  position_.run = message.run;
  position_.next_sequence = message.sequence + 1;
  position_.alive_at = std::max(position_.alive_at, std::min(message.alive_at, now));
  wanted_.reset();
  batch.position = position_;
  batch.notes = notes_.take();
  return batch;
}

// Whether the message is the one to be counted now; where it is not, whether another one is wanted is noted.
bool MessageChain::is_next(const ObservationMessage& message) {
  const bool is_same_run = message.run == position_.run;
  const std::uint64_t expected = is_same_run ? position_.next_sequence : 1;
  if (message.sequence < expected) return false;
  if (!model_) return ask_for(message, expected);
  if (message.sequence == expected || !keeps_) return true;
  return ask_for(message, expected);
}

bool MessageChain::ask_for(const ObservationMessage& message, std::uint64_t sequence) {
  wanted_ = SequencePlace{message.run, sequence};
  return false;
}

std::optional<SequencePlace> MessageChain::take_wanted(Instant now) {
  const bool is_said = wanted_at_ <= now && now - wanted_at_ < wanted_every;
  if (!wanted_ || !model_ || is_said) return std::nullopt;
  wanted_at_ = now;
  return wanted_;
}

// From the last sign of life on nothing is known of any item until it says its next value.
void MessageChain::interrupt(RunBatch& batch, const ObservationMessage& message, std::string why) const {
  const Instant from = position_.alive_at;
  Instant to = message.alive_at;
  for (const auto& one : message.observations) to = std::min(to, one.at);
  batch.interruption =
      Interruption{model_->name, from, std::clamp(to, from, std::max(from, batch.received_at)), std::move(why)};
  for (std::size_t n = 0; n < model_->items.size(); ++n) {
    if (model_->items[n].role == counters::Role::none) continue;
    batch.observations.push_back({from, static_cast<std::uint32_t>(n), counters::unknown_value});
  }
}

void MessageChain::add_observations(RunBatch& batch, const ObservationMessage& message, Instant not_before,
                                    Instant now) {
  Arriving arriving(batch, std::span(&*model_, 1), notes_);
  Delivery delivery(words_, arriving);
  for (const auto& one : message.observations) {
    const ItemPlace& place = index_->by_id(0, one.item);
    if (!place.found()) {
      arriving.unknown_item(device_, one.item);
      continue;
    }
    if (place.role == counters::Role::none) continue;
    Arrival arrival;
    arrival.item = place.item;
    arrival.at = not_too_far_ahead(std::max(one.at, not_before), now, notes_, device_);
    if (one.value.is_number() && !is_word_role(place.role)) {
      arrival.value = one.value.to_number<double>();
      arriving.observation(arrival);
    } else if (one.value.is_null()) {
      arriving.observation(arrival);
    } else {
      delivery.deliver(text_of(one.value), place, 1.0, arrival);
    }
  }
}

}  // namespace hw::feeds
