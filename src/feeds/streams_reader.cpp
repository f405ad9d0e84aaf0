#include "src/feeds/streams_reader.h"

#include "libs/formats/xml_reader.h"
#include "src/feeds/text_hash.h"
#include "src/feeds/time_reader.h"

namespace hw::feeds {
namespace {

using counters::Role;
using formats::XmlAttributes;
using formats::XmlName;
using formats::XmlReader;

constexpr formats::XmlLimits limits = {.depth_max = 64, .text_bytes_max = 4 << 20, .tag_bytes_max = 1 << 20};

bool has_suffix(std::string_view text, std::string_view tail) {
  return text.size() > tail.size() && text.substr(text.size() - tail.size()) == tail;
}

bool is_container(std::string_view local) { return local == "Samples" || local == "Events"; }

// The components of the agent itself, which since 1.7 is a device like others and wears nothing.
bool is_agents_own(std::string_view component) {
  return component == "Agent" || component == "Adapter" || component == "Adapters";
}

StreamsHeader read_header(const XmlAttributes& attributes, std::string version) {
  const auto number = [&](std::string_view name) { return read_whole(attributes.find(name).value_or("")); };
  StreamsHeader header;
  header.instance_id = number("instanceId");
  header.first_sequence = number("firstSequence");
  header.last_sequence = number("lastSequence");
  header.next_sequence = number("nextSequence");
  header.buffer_size = number("bufferSize");
  header.version = version.empty() ? std::string(attributes.find("version").value_or("")) : std::move(version);
  header.model_change_time = attributes.find("deviceModelChangeTime").value_or("");
  Instant created;
  if (read_instant(attributes.find("creationTime").value_or(""), created)) header.creation_time = created;
  return header;
}

}  // namespace

// Hears one document. An observation is what lies directly in <Samples> or <Events>; what lies in <Condition> is only
// counted, because its sequence belongs to the stream as well.
struct StreamsReader::Reading : formats::XmlHandler {
  Reading(const ItemIndex& items, const Vocabulary& words, StreamsSink& to)
      : index(items), sink(to), delivery(words, to) {}

  void start(XmlReader& reader, const XmlName& name, const XmlAttributes& attributes) override;
  void text(XmlReader& reader, std::string_view text) override;
  void end(XmlReader& reader, const XmlName& name) override;

  void start_root(XmlReader& reader, const XmlName& name);
  void start_outer(XmlReader& reader, const XmlName& name, const XmlAttributes& attributes);
  void take_header(XmlReader& reader, const XmlAttributes& attributes);
  void start_component(const XmlAttributes& attributes);
  void start_observation(const XmlName& name, const XmlAttributes& attributes);
  bool read_attributes(const XmlAttributes& attributes, std::string_view& id);
  void find_item(std::string_view id, const XmlName& name);
  void count_sequence(std::uint64_t sequence);
  Result<void> conclude();
  void restart(std::string name);

  const ItemIndex& index;
  StreamsSink& sink;
  Delivery delivery;
  std::string document;  // its name
  std::unique_ptr<XmlReader> xml;
  TimeReader times;
  Once unknown_items;
  StreamsTally tally;
  std::optional<AgentError> agent_error;
  AgentErrorReading error_reading;
  bool is_error = false;
  bool has_header = false;
  int depth = 0;
  int container_depth = 0;  // of the <Samples>, <Events> or <Condition> that is open; 0: none
  bool in_conditions = false;
  std::string device;
  std::uint32_t machine = none_found;
  bool awaits_text = false;  // an observation that a counter uses is open and its text has not come
  bool is_invalid = false;   // quality="INVALID"
  ItemPlace place;
  Arrival arrival;
};

void StreamsReader::Reading::start(XmlReader& reader, const XmlName& name, const XmlAttributes& attributes) {
  ++depth;
  if (depth == 1) return start_root(reader, name);
  if (is_error) return error_reading.start(name, attributes);
  if (container_depth == 0) return start_outer(reader, name, attributes);
  if (depth == container_depth + 1) start_observation(name, attributes);
}

void StreamsReader::Reading::start_root(XmlReader& reader, const XmlName& name) {
  is_error = name.local == "MTConnectError";
  if (is_error || name.local == "MTConnectStreams") return;
  reader.refuse({ErrorCode::bad_input, fmt::format("this is a document \"{}\"; observations come as MTConnectStreams",
                                                   name.local.substr(0, 60))});
}

void StreamsReader::Reading::start_outer(XmlReader& reader, const XmlName& name, const XmlAttributes& attributes) {
  if (is_container(name.local) || name.local == "Condition" || name.local == "Conditions") {
    container_depth = depth;
    in_conditions = !is_container(name.local);
  } else if (name.local == "ComponentStream") {
    start_component(attributes);
  } else if (name.local == "DeviceStream") {
    if (!has_header) return reader.refuse({ErrorCode::bad_input, "observations before the Header"});
    device = attributes.find("name").value_or("");
    machine = index.machine(attributes.find("uuid").value_or(""), device);
    if (device.empty()) device = attributes.find("uuid").value_or("");
  } else if (name.local == "Header" && depth == 2) {
    take_header(reader, attributes);
  }
}

void StreamsReader::Reading::take_header(XmlReader& reader, const XmlAttributes& attributes) {
  const StreamsHeader header = read_header(attributes, version_of(reader.root_namespace()));
  if (header.instance_id == 0 && attributes.find("instanceId").value_or("") != "0") {
    return reader.refuse({ErrorCode::bad_input, "a Header without a number as instanceId"});
  }
  if (header.next_sequence == 0) {
    return reader.refuse({ErrorCode::bad_input, "a Header without a nextSequence of 1 or more"});
  }
  has_header = true;
  if (auto taken = sink.header(header); !taken) reader.refuse(taken.error());
}

void StreamsReader::Reading::start_component(const XmlAttributes& attributes) {
  if (machine != none_found || is_agents_own(attributes.find("component").value_or(""))) return;
  if (unknown_items.first(hash_text(device))) sink.unknown_item(device, "");
}

void StreamsReader::Reading::start_observation(const XmlName& name, const XmlAttributes& attributes) {
  ++tally.observations;
  arrival = {};
  std::string_view id;
  const bool is_readable = read_attributes(attributes, id);
  count_sequence(arrival.sequence);
  if (is_readable && machine != none_found) tally.seen[machine].add(arrival.at);
  if (in_conditions) return;
  if (!is_readable) {
    ++tally.bad;
    return;
  }
  if (machine != none_found) find_item(id, name);
}

// One pass over the attributes; false where the id or a time that can be read is missing.
bool StreamsReader::Reading::read_attributes(const XmlAttributes& attributes, std::string_view& id) {
  bool has_time = false;
  is_invalid = false;
  for (const formats::XmlAttribute& attribute : attributes) {
    if (!attribute.name.prefix.empty()) continue;
    const std::string_view name = attribute.name.local;
    if (name == "dataItemId") {
      id = attribute.value;
    } else if (name == "timestamp") {
      has_time = times.read(attribute.value, arrival.at);
    } else if (name == "sequence") {
      arrival.sequence = read_whole(attribute.value);
    } else if (name == "resetTriggered") {
      arrival.reset = true;
    } else if (name == "quality") {
      is_invalid = attribute.value == "INVALID";
    }
  }
  return has_time && !id.empty();
}

void StreamsReader::Reading::find_item(std::string_view id, const XmlName& name) {
  place = index.by_id(machine, id);
  if (!place.found()) {
    if (unknown_items.first(fold(hash_text(id) ^ machine, 0xd6e8'feb8'6659'fd93))) sink.unknown_item(device, id);
    return;
  }
  if (place.role == Role::none || has_suffix(name.local, "DataSet") || has_suffix(name.local, "Table")) return;
  if (has_suffix(name.local, "TimeSeries")) place.is_time_series = true;
  arrival.machine = machine;
  arrival.item = place.item;
  awaits_text = true;
}

void StreamsReader::Reading::count_sequence(std::uint64_t sequence) {
  if (sequence == 0) return;
  if (tally.sequence_min == 0 || sequence < tally.sequence_min) tally.sequence_min = sequence;
  if (sequence > tally.sequence_max) tally.sequence_max = sequence;
}

void StreamsReader::Reading::text(XmlReader&, std::string_view text) {
  if (is_error) return error_reading.text(text);
  if (!awaits_text) return;
  awaits_text = false;
  delivery.deliver(is_invalid ? std::string_view("UNAVAILABLE") : text, place, 1.0, arrival);
}

void StreamsReader::Reading::end(XmlReader& reader, const XmlName& name) {
  if (is_error && depth > 1) error_reading.end(name);
  if (awaits_text) text(reader, {});
  if (depth == container_depth) container_depth = 0;
  --depth;
}

// After the last byte, when the XML is whole.
Result<void> StreamsReader::Reading::conclude() {
  if (is_error) {
    agent_error = error_reading.error();
    return refuse(agent_error->as_error().at(document));
  }
  if (!has_header) return refuse(ErrorCode::bad_input, "{}: an MTConnectStreams document without a Header", document);
  return {};
}

// What was told once stays told; everything else begins anew.
void StreamsReader::Reading::restart(std::string name) {
  document = std::move(name);
  xml = std::make_unique<XmlReader>(*this, document, limits);
  tally = {};
  tally.seen.resize(index.machines());
  agent_error.reset();
  error_reading = {};
  is_error = has_header = awaits_text = in_conditions = false;
  depth = container_depth = 0;
  machine = none_found;
}

StreamsReader::StreamsReader(const ItemIndex& index, const Vocabulary& words, StreamsSink& sink, std::string name)
    : reading_(std::make_unique<Reading>(index, words, sink)) {
  reading_->restart(std::move(name));
}

StreamsReader::~StreamsReader() = default;

Result<void> StreamsReader::feed(std::string_view piece) { return reading_->xml->feed(piece); }

Result<void> StreamsReader::finish() {
  if (auto finished = reading_->xml->finish(); !finished) return finished;
  return reading_->conclude();
}

Result<void> StreamsReader::read(formats::ByteSource& source) {
  if (auto read = reading_->xml->read(source); !read) return read;
  return reading_->conclude();
}

void StreamsReader::restart(std::string name) { reading_->restart(std::move(name)); }

const StreamsTally& StreamsReader::tally() const { return reading_->tally; }
const std::optional<AgentError>& StreamsReader::agent_error() const { return reading_->agent_error; }

}  // namespace hw::feeds
