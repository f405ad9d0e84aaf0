#include "src/simulate/message_outbox.h"

#include <algorithm>

namespace hw::simulate {
namespace {

std::optional<std::string> said(const std::string& text) { return text.empty() ? std::nullopt : std::optional(text); }

feeds::ModelMessage model_message(const Machine& machine, bool keeps) {
  feeds::ModelMessage message{machine.entry.key, keeps, {}};
  for (const counters::Item& item : machine.model.items) {
    message.items.push_back({item.id, item.category, item.type, said(item.name), said(item.sub_type), said(item.units),
                             said(item.coordinate_system), said(item.component), said(item.component_id),
                             said(item.component_name)});
  }
  return message;
}

boost::json::value value_of(const Machine& machine, const Event& event) {
  if (counters::is_unknown(event.value)) return nullptr;
  const counters::Item& item = machine.model.items.at(event.item);
  if (item.category == "SAMPLE") return event.value;
  return boost::json::value(print_value(machine, event.item, event.value));
}

}  // namespace

MessageOutbox::MessageOutbox(const std::vector<Machine>& machines, OutboxOptions options)
    : machines_(machines), options_(std::move(options)), lines_(machines.size()) {}

std::vector<feeds::Publication> MessageOutbox::models() const {
  std::vector<feeds::Publication> models;
  for (const Machine& machine : machines_) {
    models.push_back({print(feeds::MessageTopic{options_.feed, machine.entry.key, feeds::MessageKind::model}),
                      formats::print_json(model_message(machine, options_.keeps)), true});
  }
  return models;
}

std::vector<std::string> MessageOutbox::topic_filters() const {
  return {fmt::format("hourwright/{}/+/kept", options_.feed), fmt::format("hourwright/{}/+/wanted", options_.feed)};
}

void MessageOutbox::add(std::size_t machine, std::span<const Event> events, Instant alive_at) {
  Line& line = lines_.at(machine);
  feeds::ObservationMessage message{options_.run, line.next_sequence++, alive_at, {}};
  for (const Event& event : events) {
    message.observations.push_back(
        {event.at, machines_[machine].model.items.at(event.item).id, value_of(machines_[machine], event)});
  }
  line.messages.push_back(formats::print_json(message));
}

std::vector<feeds::Publication> MessageOutbox::take_unsent(std::size_t count_max) {
  std::vector<feeds::Publication> unsent;
  for (std::size_t m = 0; m < lines_.size(); ++m) {
    Line& line = lines_[m];
    const std::string topic =
        print(feeds::MessageTopic{options_.feed, machines_[m].entry.key, feeds::MessageKind::observations});
    while (line.next_to_send < line.next_sequence && unsent.size() < count_max) {
      unsent.push_back({topic, line.messages[line.next_to_send++ - line.first_kept], false});
    }
    if (!options_.keeps) forget_before(line, line.next_to_send);
  }
  return unsent;
}

void MessageOutbox::begin_session() {
  for (Line& line : lines_) line.next_to_send = line.first_kept;
}

void MessageOutbox::hear(std::string_view topic, std::string_view payload) {
  const auto read = feeds::parse_topic(topic);
  const auto place = feeds::parse_place(payload);
  if (!read || !place || (place->run != options_.run && !place->run.empty())) return;
  for (std::size_t m = 0; m < lines_.size(); ++m) {
    Line& line = lines_[m];
    if (machines_[m].entry.key != read->machine || place->next_sequence > line.next_sequence) continue;
    if (read->kind == feeds::MessageKind::kept) forget_before(line, place->next_sequence);
    if (read->kind == feeds::MessageKind::wanted) line.next_to_send = std::max(place->next_sequence, line.first_kept);
  }
}

void MessageOutbox::forget_before(Line& line, std::uint64_t sequence) {
  while (line.first_kept < sequence && !line.messages.empty()) {
    line.messages.pop_front();
    ++line.first_kept;
  }
  line.next_to_send = std::max(line.next_to_send, line.first_kept);
}

std::size_t MessageOutbox::kept() const {
  std::size_t kept = 0;
  for (const Line& line : lines_) kept += line.messages.size();
  return kept;
}

}  // namespace hw::simulate
