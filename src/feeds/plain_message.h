#pragma once
// Our plain messages over MQTT, as docs/api/messages.md describes them: one JSON object each, without fields that are
// not named here. The topics are
//
//   hourwright/<feed>/<machine>/model          retained: what the machine can tell
//   hourwright/<feed>/<machine>/observations   what it told
//   hourwright/<feed>/<machine>/kept           retained, by the server: how far everything is stored
//   hourwright/<feed>/<machine>/wanted         by the server: from where on to send again

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include <boost/describe.hpp>

#include "libs/formats/json.h"
#include "libs/values/instant.h"
#include "libs/values/result.h"
#include "src/counters/machine_model.h"

namespace hw::feeds {

struct ObservationMessage {
  struct Observation {
    Instant at;
    std::string item;          // its id in the model
    boost::json::value value;  // a number, a word, or null: not known
  };
  std::string run;             // names what counts the sequence: a start of the publisher, or its store
  std::uint64_t sequence = 0;  // of the machine's messages in the run: 1, 2, 3 ...
  Instant alive_at;            // up to here the publisher has told everything
  std::vector<Observation> observations;
};
BOOST_DESCRIBE_STRUCT(ObservationMessage::Observation, (), (at, item, value))
BOOST_DESCRIBE_STRUCT(ObservationMessage, (), (run, sequence, alive_at, observations))

// The words are those of an MTConnect probe.
struct ModelMessage {
  struct Item {
    std::string id;
    std::string category;  // SAMPLE, EVENT, CONDITION
    std::string type;      // EXECUTION, ROTARY_VELOCITY ...
    std::optional<std::string> name = {}, sub_type = {}, units = {}, coordinate_system = {};
    std::optional<std::string> component = {}, component_id = {}, component_name = {};  // Rotary, Linear, Path ...
  };
  std::string machine;
  std::optional<bool> keeps = {};  // the publisher can send again; not said: it can
  std::vector<Item> items;
};
BOOST_DESCRIBE_STRUCT(ModelMessage::Item, (),
                      (id, category, type, name, sub_type, units, coordinate_system, component, component_id,
                       component_name))
BOOST_DESCRIBE_STRUCT(ModelMessage, (), (machine, keeps, items))

// What `kept` and `wanted` say: everything before next_sequence is stored, or this one is to come next. An empty run in
// `wanted` is the publisher's present one: nothing is known of the machine yet.
struct SequencePlace {
  std::string run;
  std::uint64_t next_sequence = 0;
  bool operator==(const SequencePlace&) const = default;
};
BOOST_DESCRIBE_STRUCT(SequencePlace, (), (run, next_sequence))

inline constexpr std::size_t message_bytes_max = 4 << 20;
inline constexpr std::size_t run_bytes_max = 100;

// Errors (bad_input, too_large) name the field, as in observations[3].at. Refused besides what is no such JSON: a run
// beyond run_bytes_max or, with observations, an empty one, sequence 0, a value that is neither number nor text nor
// null; in a model an empty id, one that stands twice, more than items_max items.
Result<ObservationMessage> parse_observations(std::string_view payload);
Result<ModelMessage> parse_model(std::string_view payload);
Result<SequencePlace> parse_place(std::string_view payload);

// As the counters want it; the machine's name is also its id.
counters::MachineModel model_of(const ModelMessage& message);

enum class MessageKind : std::uint8_t { model, observations, kept, wanted };

struct MessageTopic {
  std::string feed;
  std::string machine;
  MessageKind kind = MessageKind::model;
  bool operator==(const MessageTopic&) const = default;
};

std::string print(const MessageTopic& topic);
// Nothing where it is no topic of ours.
std::optional<MessageTopic> parse_topic(std::string_view topic);

}  // namespace hw::feeds
