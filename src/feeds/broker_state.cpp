#include "src/feeds/broker_state.h"

#include <algorithm>
#include <array>
#include <utility>

namespace hw::feeds {
namespace {

constexpr std::string_view agents_prefix = "MTConnect/";
constexpr std::array<std::pair<std::string_view, DocumentKind>, 3> document_topics{
    {{"Probe/", DocumentKind::probe}, {"Current/", DocumentKind::current}, {"Sample/", DocumentKind::sample}}};
constexpr std::string_view availability_tail = "/Availability";

// What a topic of an agent names; the kind is nothing for its last will.
struct AgentTopic {
  std::string_view uuid;
  std::optional<DocumentKind> kind;
};

std::optional<AgentTopic> parse_agent_topic(std::string_view topic) {
  if (!topic.starts_with(agents_prefix)) return std::nullopt;
  topic.remove_prefix(agents_prefix.size());
  for (const auto& [word, kind] : document_topics) {
    if (!topic.starts_with(word)) continue;
    topic.remove_prefix(word.size());
    if (kind == DocumentKind::probe && topic.ends_with(availability_tail)) {
      return AgentTopic{topic.substr(0, topic.size() - availability_tail.size()), std::nullopt};
    }
    if (topic.empty() || topic.find('/') != std::string_view::npos) return std::nullopt;
    return AgentTopic{topic, kind};
  }
  return std::nullopt;
}

Publication publication_of(const MessageTopic& topic, const SequencePlace& place) {
  return {print(topic), formats::print_json(place), topic.kind == MessageKind::kept};
}

}  // namespace

struct BrokerState::Machine {
  std::string device;
  std::string uuid;  // of an agent's device
  bool has_spoken = false;
  RunPosition stored;
  std::optional<MessageChain> messages;
  std::optional<AgentChain> documents;
  MachineFeedView view;
};

BrokerState::BrokerState(std::string plain_feed, Aliases aliases, std::vector<FollowedMachine> machines)
    : plain_feed_(std::move(plain_feed)), aliases_(std::move(aliases)) {
  for (FollowedMachine& one : machines) {
    auto machine = std::make_unique<Machine>();
    machine->device = one.device;
    machine->stored = one.stored.position;
    if (!plain_feed_.empty()) {
      machine->messages.emplace(one.device, aliases_, std::move(one.stored));
    } else {
      machine->uuid = one.stored.model ? one.stored.model->uuid : std::string();
      machine->documents.emplace(machine->uuid, aliases_, std::move(one.stored));
      if (!machine->uuid.empty()) by_uuid_[machine->uuid] = machine.get();
    }
    machines_[one.device] = std::move(machine);
  }
}

BrokerState::~BrokerState() = default;

std::vector<std::string> BrokerState::topic_filters() const {
  if (plain_feed_.empty()) {
    return {"MTConnect/Probe/+", "MTConnect/Probe/+/Availability", "MTConnect/Current/+", "MTConnect/Sample/+"};
  }
  return {fmt::format("hourwright/{}/+/model", plain_feed_), fmt::format("hourwright/{}/+/observations", plain_feed_)};
}

std::vector<Publication> BrokerState::begin_session(Instant now) {
  std::vector<Publication> said;
  for (auto& [device, machine] : machines_) {
    if (machine->documents) machine->documents->begin_session();
    if (!machine->messages) continue;
    if (const auto kept = std::exchange(machine->stored, {}); kept.next_sequence > 0) {
      if (auto one = stored(device, kept)) said.push_back(std::move(*one));
    }
    const RunPosition& counted = machine->messages->position();
    const std::uint64_t next = std::max<std::uint64_t>(counted.next_sequence, 1);
    said.push_back(publication_of({plain_feed_, device, MessageKind::wanted}, {counted.run, next}));
    machine->messages->asked(now);
  }
  return said;
}

std::vector<Publication> BrokerState::ask_again(Instant now) {
  std::vector<Publication> said;
  for (auto& [device, machine] : machines_) {
    if (!machine->messages) continue;
    if (const auto wanted = machine->messages->take_wanted(now)) {
      said.push_back(publication_of({plain_feed_, device, MessageKind::wanted}, *wanted));
    }
  }
  return said;
}

std::optional<Publication> BrokerState::stored(const std::string& device, const RunPosition& position) {
  Machine* const machine = machine_of(device);
  if (machine == nullptr || plain_feed_.empty()) return std::nullopt;
  const bool is_news = machine->stored.run != position.run || machine->stored.next_sequence != position.next_sequence;
  machine->stored = position;
  if (!is_news) return std::nullopt;
  return publication_of({plain_feed_, device, MessageKind::kept}, {position.run, position.next_sequence});
}

BrokerOutcome BrokerState::hear(const BrokerMessage& message, Instant now) {
  if (plain_feed_.empty()) return hear_agent(message, now);
  const auto topic = parse_topic(message.topic);
  return topic ? hear_plain(message, *topic, now) : BrokerOutcome{};
}

BrokerOutcome BrokerState::hear_plain(const BrokerMessage& message, const MessageTopic& topic, Instant now) {
  Machine* const machine = machine_of(topic.machine);
  if (machine == nullptr) {
    notes_.add(topic.machine, "publishes to this feed and is no machine of the shop");
    return {};
  }
  using Heard = Result<std::optional<RunBatch>>;
  Heard heard;
  if (topic.kind == MessageKind::model) {
    const auto model = parse_model(message.payload);
    if (!model) {
      heard = refuse(model.error());
    } else if (model->machine != topic.machine) {
      heard = refuse(ErrorCode::bad_input, "machine: must be \"{}\" as in the topic", topic.machine);
    } else {
      heard = machine->messages->hear(*model, now);
    }
  } else {
    const auto observations = parse_observations(message.payload);
    heard = observations ? Heard(machine->messages->hear(*observations, now)) : Heard(refuse(observations.error()));
  }
  BrokerOutcome outcome = outcome_of(*machine, std::move(heard), message, now);
  if (const auto wanted = machine->messages->take_wanted(now)) {
    outcome.publications.push_back(publication_of({plain_feed_, machine->device, MessageKind::wanted}, *wanted));
  }
  machine->view.is_behind = machine->messages->is_behind();
  return outcome;
}

BrokerOutcome BrokerState::hear_agent(const BrokerMessage& message, Instant now) {
  const auto topic = parse_agent_topic(message.topic);
  if (!topic) return {};
  if (!topic->kind) {
    hear_availability(topic->uuid, message.payload);
    return {};
  }
  const DocumentMessage document{*topic->kind, message.payload, message.is_retained};
  const auto known = by_uuid_.find(topic->uuid);
  Machine* const machine = known != by_uuid_.end() ? known->second : adopt(topic->uuid, document, now);
  if (machine == nullptr) return {};
  machine->has_spoken = true;
  BrokerOutcome outcome = outcome_of(*machine, machine->documents->hear(document, now), message, now);
  machine->view.is_behind = machine->documents->is_behind();
  return outcome;
}

// An agent's topics name devices by their uuid; a shop may name them otherwise, as their probe then says.
BrokerState::Machine* BrokerState::adopt(std::string_view uuid, const DocumentMessage& message, Instant now) {
  if (message.kind != DocumentKind::probe) return nullptr;
  AgentChain stranger(std::string(uuid), aliases_, {});
  const auto heard = stranger.hear(message, now);
  if (!heard) {
    notes_.add(std::string(uuid), heard.error().message);
    return nullptr;
  }
  if (!*heard || !(*heard)->model) return nullptr;
  const std::string& name = (*heard)->model->name;
  Machine* machine = machine_of(uuid);
  if (machine == nullptr) machine = machine_of(name);
  if (machine == nullptr || machine->has_spoken) {
    notes_.add(name, machine == nullptr ? "is told at the broker and is no machine of the shop"
                                        : "is told twice at the broker, by two uuids: the second one is passed over");
    return nullptr;
  }
  by_uuid_.erase(machine->uuid);
  by_uuid_[std::string(uuid)] = machine;
  machine->uuid = uuid;
  machine->documents.emplace(std::string(uuid), aliases_, StoredRun{machine->documents->position(), std::nullopt});
  return machine;
}

void BrokerState::hear_availability(std::string_view uuid, std::string_view word) {
  const auto known = by_uuid_.find(uuid);
  if (known == by_uuid_.end() || !is_unavailable(trim(word))) return;
  known->second->documents->begin_session();
  known->second->view.is_behind = true;
  known->second->view.trouble = "the agent left the broker";
}

BrokerOutcome BrokerState::outcome_of(Machine& machine, Result<std::optional<RunBatch>> heard,
                                      const BrokerMessage& message, Instant now) {
  BrokerOutcome outcome;
  if (!heard) {
    machine.view.trouble = heard.error().at(message.topic).message;
    notes_.add(machine.device, machine.view.trouble);
    return outcome;
  }
  if (!message.is_retained) {
    machine.view.last_sign_at = now;
    machine.view.trouble.clear();
  }
  outcome.batch = std::move(*heard);
  if (outcome.batch) outcome.batch->device = machine.device;
  return outcome;
}

MachineFeedView BrokerState::view(std::string_view device) const {
  const Machine* const machine = machine_of(device);
  return machine == nullptr ? MachineFeedView{} : machine->view;
}

BrokerState::Machine* BrokerState::machine_of(std::string_view device) const {
  const auto found = machines_.find(device);
  return found == machines_.end() ? nullptr : found->second.get();
}

}  // namespace hw::feeds
