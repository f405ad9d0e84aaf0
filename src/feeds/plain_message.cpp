#include "src/feeds/plain_message.h"

#include <array>
#include <set>

#include "src/feeds/device_model.h"

namespace hw::feeds {
namespace {

constexpr formats::JsonLimits message_limits{.bytes_max = message_bytes_max, .depth_max = 8};
constexpr std::string_view prefix = "hourwright/";
constexpr std::array<std::string_view, 4> kinds{"model", "observations", "kept", "wanted"};

Result<void> check_place(std::string_view run, std::uint64_t sequence, std::string_view field) {
  if (run.size() > run_bytes_max) {
    return refuse(ErrorCode::too_large, "run: must not be longer than {} bytes", run_bytes_max);
  }
  if (sequence == 0) return refuse(ErrorCode::bad_input, "{}: must be 1 or more", field);
  return {};
}

}  // namespace

Result<ObservationMessage> parse_observations(std::string_view payload) {
  HW_TAKE(message, formats::parse_json<ObservationMessage>(payload, message_limits));
  if (message.run.empty()) return refuse(ErrorCode::bad_input, "run: must not be empty");
  HW_TRY(check_place(message.run, message.sequence, "sequence"));
  for (std::size_t n = 0; n < message.observations.size(); ++n) {
    const boost::json::value& value = message.observations[n].value;
    if (value.is_null() || value.is_number() || value.is_string()) continue;
    return refuse(ErrorCode::bad_input, "observations[{}].value: must be a number, a text or null", n);
  }
  return std::move(message);
}

Result<ModelMessage> parse_model(std::string_view payload) {
  HW_TAKE(message, formats::parse_json<ModelMessage>(payload, message_limits));
  if (message.items.size() > items_max) {
    return refuse(ErrorCode::too_large, "items: must not be more than {}", items_max);
  }
  std::set<std::string_view> ids;
  for (std::size_t n = 0; n < message.items.size(); ++n) {
    const std::string& id = message.items[n].id;
    if (id.empty()) return refuse(ErrorCode::bad_input, "items[{}].id: must not be empty", n);
    if (!ids.insert(id).second) return refuse(ErrorCode::bad_input, "items[{}].id: \"{}\" stands twice", n, id);
  }
  return std::move(message);
}

Result<SequencePlace> parse_place(std::string_view payload) {
  HW_TAKE(place, formats::parse_json<SequencePlace>(payload, message_limits));
  HW_TRY(check_place(place.run, place.next_sequence, "next_sequence"));
  return std::move(place);
}

counters::MachineModel model_of(const ModelMessage& message) {
  counters::MachineModel model{message.machine, message.machine, "", {}};
  for (const ModelMessage::Item& one : message.items) {
    counters::Item item;
    item.id = one.id;
    item.name = one.name.value_or("");
    item.category = one.category;
    item.type = one.type;
    item.sub_type = one.sub_type.value_or("");
    item.units = one.units.value_or("");
    item.representation = "VALUE";
    item.coordinate_system = one.coordinate_system.value_or("");
    item.component = one.component.value_or("");
    item.component_id = one.component_id.value_or("");
    item.component_name = one.component_name.value_or("");
    item.role = counters::role_of(item);
    model.items.push_back(std::move(item));
  }
  return model;
}

std::string print(const MessageTopic& topic) {
  return fmt::format("{}{}/{}/{}", prefix, topic.feed, topic.machine, kinds.at(static_cast<std::size_t>(topic.kind)));
}

std::optional<MessageTopic> parse_topic(std::string_view topic) {
  if (!topic.starts_with(prefix)) return std::nullopt;
  topic.remove_prefix(prefix.size());
  const std::size_t first = topic.find('/');
  const std::size_t last = topic.rfind('/');
  if (first == std::string_view::npos || last <= first + 1) return std::nullopt;
  const std::string_view machine = topic.substr(first + 1, last - first - 1);
  const auto* const kind = std::find(kinds.begin(), kinds.end(), topic.substr(last + 1));
  if (first == 0 || machine.find('/') != std::string_view::npos || kind == kinds.end()) return std::nullopt;
  return MessageTopic{std::string(topic.substr(0, first)), std::string(machine),
                      static_cast<MessageKind>(kind - kinds.begin())};
}

}  // namespace hw::feeds
