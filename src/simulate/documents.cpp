#include "src/simulate/documents.h"

#include <algorithm>
#include <iterator>

#include <fmt/format.h>

#include "libs/formats/xml_text.h"

namespace hw::simulate {

namespace {

using counters::Item;
using Out = std::back_insert_iterator<std::string>;

// ` name="value"`, or nothing where the value is empty.
std::string attribute(std::string_view name, std::string_view value) {
  return value.empty() ? std::string() : fmt::format(" {}=\"{}\"", name, formats::escape_xml(value));
}

std::string begin_document(std::string_view kind, const DocumentHead& head) {
  return fmt::format(
      "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
      "<MTConnect{0} xmlns=\"urn:mtconnect.org:MTConnect{0}:{1}\" xmlns:x=\"urn:hourwright:floor:{1}\">\n",
      kind, print(head.edition));
}

void print_header(Out out, std::string_view kind, const DocumentHead& head) {
  fmt::format_to(out,
                 "  <Header creationTime=\"{}\" sender=\"{}\" instanceId=\"{}\" version=\"{}.0.1\" bufferSize=\"{}\"",
                 print(head.created_at), formats::escape_xml(head.sender), head.instance_id, print(head.edition),
                 head.buffer_size);
  if (kind == "Devices") fmt::format_to(out, " assetBufferSize=\"1024\" assetCount=\"0\"");
  if (head.edition != Edition::v1_3 && kind != "Error") {
    fmt::format_to(out, " deviceModelChangeTime=\"{}\"", print(head.model_changed_at));
  }
  if (head.range) {
    fmt::format_to(out, " firstSequence=\"{}\" lastSequence=\"{}\" nextSequence=\"{}\"", head.range->first,
                   head.range->buffer_next - 1, head.range->next);
  }
  fmt::format_to(out, "/>\n");
}

void print_data_item(Out out, const Item& item) {
  fmt::format_to(out, "<DataItem category=\"{}\" id=\"{}\"", item.category, item.id);
  const std::string name = attribute("name", item.name) + attribute("type", item.type) +
                           attribute("subType", item.sub_type) + attribute("units", item.units) +
                           attribute("nativeUnits", item.native_units) +
                           attribute("coordinateSystem", item.coordinate_system);
  fmt::format_to(out, "{}/>\n", name);
}

// The data items of one component.
void print_items_of(Out out, const Machine& machine, std::string_view component_id) {
  fmt::format_to(out, "<DataItems>\n");
  for (const Item& item : machine.model.items) {
    if (item.component_id == component_id) print_data_item(out, item);
  }
  fmt::format_to(out, "</DataItems>\n");
}

void begin_component(Out out, const Item& item) {
  fmt::format_to(out, "<{} id=\"{}\"{}>\n", item.component, item.component_id, attribute("name", item.component_name));
}

// One item of each component, in order of first appearance.
std::vector<const Item*> components_of(const Machine& machine) {
  std::vector<const Item*> found;
  for (const Item& item : machine.model.items) {
    const auto same = [&](const Item* other) { return other->component_id == item.component_id; };
    if (std::none_of(found.begin(), found.end(), same)) found.push_back(&item);
  }
  return found;
}

bool is_axis(const Item& item) { return item.component == "Linear" || item.component == "Rotary"; }

void print_axes(Out out, const Machine& machine) {
  fmt::format_to(out, "<Axes id=\"{}-axes\" name=\"axes\">\n<Components>\n", machine.entry.key);
  for (const Item* item : components_of(machine)) {
    if (!is_axis(*item)) continue;
    begin_component(out, *item);
    print_items_of(out, machine, item->component_id);
    fmt::format_to(out, "</{}>\n", item->component);
  }
  fmt::format_to(out, "</Components>\n</Axes>\n");
}

void print_controller(Out out, const Machine& machine) {
  const std::string& key = machine.entry.key;
  fmt::format_to(out, "<Controller id=\"{}-cont\" name=\"controller\">\n", key);
  print_items_of(out, machine, key + "-cont");
  fmt::format_to(out, "<Components>\n<Path id=\"{}-path\" name=\"path\">\n", key);
  print_items_of(out, machine, key + "-path");
  fmt::format_to(out, "</Path>\n</Components>\n</Controller>\n");
}

void print_device(Out out, const Machine& machine) {
  const std::string& key = machine.entry.key;
  fmt::format_to(out, "<Device id=\"{}\" name=\"{}\" uuid=\"{}\">\n<Description>{}</Description>\n", key, key,
                 machine.uuid, formats::escape_xml(machine.entry.name));
  if (machine.traits.has_availability) print_items_of(out, machine, key + "-dev");
  fmt::format_to(out, "<Components>\n");
  print_axes(out, machine);
  print_controller(out, machine);
  fmt::format_to(out, "</Components>\n</Device>\n");
}

// What an observation is sorted by: where it stands in the document.
struct Placed {
  std::uint32_t machine = 0;
  std::uint32_t component = 0;  // the first item of the same component
  std::uint32_t category = 0;
  const Kept* kept = nullptr;

  auto order() const { return std::tuple(machine, component, category, kept->sequence); }
};

std::uint32_t first_of_component(const Machine& machine, std::uint32_t item) {
  const auto& items = machine.model.items;
  std::uint32_t first = 0;
  while (items[first].component_id != items[item].component_id) ++first;
  return first;
}

constexpr std::array<std::string_view, 3> category_words{"SAMPLE", "EVENT", "CONDITION"};
constexpr std::array<std::string_view, 3> category_elements{"Samples", "Events", "Condition"};

Placed place(const std::vector<Machine>& machines, const Kept& kept) {
  const Machine& machine = machines.at(kept.arrival.machine);
  const Item& item = machine.model.items.at(kept.arrival.event.item);
  const auto* const word = std::find(category_words.begin(), category_words.end(), item.category);
  return {kept.arrival.machine, first_of_component(machine, kept.arrival.event.item),
          static_cast<std::uint32_t>(word - category_words.begin()), &kept};
}

void print_observation(Out out, const Machine& machine, const Kept& kept) {
  const Event& event = kept.arrival.event;
  const Item& item = machine.model.items.at(event.item);
  const std::string value = print_value(machine, event.item, event.value);
  const std::string attributes =
      fmt::format("dataItemId=\"{}\" timestamp=\"{}\" sequence=\"{}\"{}{}", item.id, print(event.at), kept.sequence,
                  attribute("name", item.name), attribute("subType", item.sub_type));
  if (item.category == "CONDITION") {
    const std::string_view state = counters::is_unknown(event.value) ? "Unavailable" : std::string_view(value);
    fmt::format_to(out, "<{} {} type=\"{}\"/>\n", state, attributes, item.type);
    return;
  }
  const std::string element = element_of(item.type);
  fmt::format_to(out, "<{0} {1}>{2}</{0}>\n", element, attributes, formats::escape_xml(value));
}

// Opens and closes the elements around the observations as they change.
class StreamsPrinter {
 public:
  StreamsPrinter(Out out, const std::vector<Machine>& machines) : out_(out), machines_(machines) {}

  void print(const Placed& next) {
    const Machine& machine = machines_.at(next.machine);
    const bool same_machine = is_open_ && last_.machine == next.machine;
    const bool same_component = same_machine && last_.component == next.component;
    const bool same_category = same_component && last_.category == next.category;
    close(same_machine, same_component, same_category);
    if (!same_machine) {
      fmt::format_to(out_, "<DeviceStream name=\"{}\" uuid=\"{}\">\n", machine.entry.key, machine.uuid);
    }
    const Item& item = machine.model.items.at(next.component);
    if (!same_component) {
      fmt::format_to(out_, "<ComponentStream component=\"{}\" componentId=\"{}\"{}>\n", item.component,
                     item.component_id, attribute("name", item.component_name));
    }
    if (!same_category) fmt::format_to(out_, "<{}>\n", category_elements.at(next.category));
    print_observation(out_, machine, *next.kept);
    last_ = next;
    is_open_ = true;
  }
  void finish() { close(false, false, false); }

 private:
  void close(bool same_machine, bool same_component, bool same_category) {
    if (!is_open_) return;
    if (!same_category) fmt::format_to(out_, "</{}>\n", category_elements.at(last_.category));
    if (!same_component) fmt::format_to(out_, "</ComponentStream>\n");
    if (!same_machine) fmt::format_to(out_, "</DeviceStream>\n");
  }

  Out out_;
  const std::vector<Machine>& machines_;
  Placed last_;
  bool is_open_ = false;
};

}  // namespace

std::string element_of(std::string_view type) {
  std::string out;
  bool is_first = true;
  for (const char c : type) {
    if (c == '_') {
      is_first = true;
      continue;
    }
    out += is_first || c < 'A' || c > 'Z' ? c : static_cast<char>(c - 'A' + 'a');
    is_first = false;
  }
  return out;
}

std::string print_devices(const DocumentHead& head, std::span<const Machine* const> machines, bool agent_device) {
  std::string text = begin_document("Devices", head);
  const Out out(text);
  print_header(out, "Devices", head);
  text += "<Devices>\n";
  if (agent_device) {
    fmt::format_to(out,
                   "<Agent id=\"agent\" name=\"Agent\" uuid=\"agent-of-{}\" mtconnectVersion=\"{}\">\n<DataItems>\n"
                   "<DataItem category=\"EVENT\" id=\"agent-avail\" type=\"AVAILABILITY\"/>\n</DataItems>\n</Agent>\n",
                   formats::escape_xml(head.sender), print(head.edition));
  }
  for (const Machine* machine : machines) print_device(out, *machine);
  return text + "</Devices>\n</MTConnectDevices>\n";
}

std::string print_streams(const DocumentHead& head, const std::vector<Machine>& machines,
                          const std::vector<Kept>& list) {
  std::vector<Placed> places;
  places.reserve(list.size());
  for (const Kept& kept : list) places.push_back(place(machines, kept));
  std::sort(places.begin(), places.end(), [](const Placed& a, const Placed& b) { return a.order() < b.order(); });
  std::string text = begin_document("Streams", head);
  const Out out(text);
  print_header(out, "Streams", head);
  text += "<Streams>\n";
  StreamsPrinter printer(out, machines);
  for (const Placed& placed : places) printer.print(placed);
  printer.finish();
  return text + "</Streams>\n</MTConnectStreams>\n";
}

std::string print_error(const DocumentHead& head, std::string_view code, std::string_view text) {
  std::string out = begin_document("Error", head);
  print_header(Out(out), "Error", head);
  return out + fmt::format("<Errors>\n<Error errorCode=\"{}\">{}</Error>\n</Errors>\n</MTConnectError>\n", code,
                           formats::escape_xml(text));
}

}  // namespace hw::simulate
