#include "src/feeds/device_model.h"

#include <map>

#include "libs/formats/byte_source.h"
#include "libs/formats/xml_reader.h"
#include "src/feeds/agent_error.h"
#include "src/feeds/unit_ratio.h"
#include "src/feeds/vocabulary.h"

namespace hw::feeds {
namespace {

using counters::Item;
using counters::MachineModel;
using formats::XmlAttributes;
using formats::XmlName;
using formats::XmlReader;

std::string text_of(const XmlAttributes& attributes, std::string_view name) {
  return std::string(attributes.find(name).value_or(std::string_view{}));
}

// "x y z" in one value: three items, so that a counter sees numbers only.
bool is_spatial_position(const Item& item) {
  return item.category == "SAMPLE" &&
         (item.type == "PATH_POSITION" || (item.type == "POSITION" && item.units == "MILLIMETER_3D"));
}

void strip_spatial(std::string& units) {
  if (units.size() > 3 && units.compare(units.size() - 3, 3, "_3D") == 0) units.resize(units.size() - 3);
}

Item coordinate_of(const Item& item, char letter) {
  Item one = item;
  const std::string tail = {'/', letter};
  one.id += tail;
  if (!one.name.empty()) one.name += tail;
  if (!one.source.empty()) one.source += tail;
  strip_spatial(one.units);
  strip_spatial(one.native_units);
  return one;
}

struct Component {
  std::string element, id, name;
};

// One element that is open.
struct Level {
  bool opens_component = false;
  bool holds_components = false;  // <Components>, <Devices>
};

// Hears the document. Only what lies inside a <Device> counts; the names of all elements between are the builder's.
class ModelReading : public formats::XmlHandler {
 public:
  void start(XmlReader& reader, const XmlName& name, const XmlAttributes& attributes) override;
  void text(XmlReader& reader, std::string_view text) override;
  void end(XmlReader& reader, const XmlName& name) override;

  Result<DevicesDocument> take(const std::string& name);

 private:
  void start_root(XmlReader& reader, const XmlName& name);
  void start_within(XmlReader& reader, const XmlName& name, const XmlAttributes& attributes);
  bool start_component(XmlReader& reader, const XmlName& name, const XmlAttributes& attributes);
  void start_device(XmlReader& reader, const XmlAttributes& attributes);
  void start_item(XmlReader& reader, const XmlAttributes& attributes);
  void end_item();
  void end_device();
  void finish_item(Item item);

  DevicesDocument document_;
  AgentErrorReading error_;
  bool is_error_ = false;
  std::string version_in_header_;
  std::vector<Level> levels_;
  std::vector<Component> components_;  // from the device inward
  std::size_t agent_depth_ = 0;        // of the <Agent> that is passed over; 0: none
  bool in_source_ = false;
  std::optional<Item> item_;
  double native_scale_ = 1.0;
  std::string coordinate_reference_;
  std::size_t items_ = 0;
  std::vector<Item> device_items_;
  std::vector<std::string> references_;         // of device_items_: coordinateSystemIdRef
  std::vector<double> scales_;                  // of device_items_: nativeScale
  std::map<std::string, std::string> systems_;  // CoordinateSystem id -> type
};

void ModelReading::start(XmlReader& reader, const XmlName& name, const XmlAttributes& attributes) {
  if (levels_.empty()) {
    start_root(reader, name);
    levels_.push_back({});
    return;
  }
  if (is_error_) return error_.start(name, attributes);
  levels_.push_back({false, name.local == "Components" || name.local == "Devices"});
  if (agent_depth_ != 0) return;
  start_within(reader, name, attributes);
}

void ModelReading::start_root(XmlReader& reader, const XmlName& name) {
  is_error_ = name.local == "MTConnectError";
  if (!is_error_ && name.local != "MTConnectDevices") {
    reader.refuse({ErrorCode::bad_input, fmt::format("this is a document \"{}\"; a device model is MTConnectDevices",
                                                     name.local.substr(0, 60))});
  }
  document_.version = version_of(reader.root_namespace());
}

void ModelReading::start_within(XmlReader& reader, const XmlName& name, const XmlAttributes& attributes) {
  if (start_component(reader, name, attributes)) return;
  if (name.local == "Header" && components_.empty()) {
    document_.instance_id = read_whole(attributes.find("instanceId").value_or(""));
    document_.model_change_time = text_of(attributes, "deviceModelChangeTime");
    version_in_header_ = text_of(attributes, "version");
  } else if (name.local == "DataItem" && !components_.empty()) {
    start_item(reader, attributes);
  } else if (name.local == "Source") {
    in_source_ = item_.has_value();
  } else if (name.local == "ResetTrigger" && item_) {
    item_->has_reset_trigger = true;
  } else if (name.local == "CoordinateSystem") {
    systems_[text_of(attributes, "id")] = text_of(attributes, "type");
  }
}

bool ModelReading::start_component(XmlReader& reader, const XmlName& name, const XmlAttributes& attributes) {
  const Level& parent = levels_[levels_.size() - 2];
  if (!parent.holds_components) return false;
  if (components_.empty() && name.local == "Agent") {
    agent_depth_ = levels_.size();
    return true;
  }
  if (components_.empty()) start_device(reader, attributes);
  levels_.back().opens_component = true;
  components_.push_back({std::string(name.local), text_of(attributes, "id"), text_of(attributes, "name")});
  return true;
}

void ModelReading::start_device(XmlReader& reader, const XmlAttributes& attributes) {
  MachineModel machine;
  machine.id = text_of(attributes, "id");
  machine.uuid = text_of(attributes, "uuid");
  machine.name = text_of(attributes, "name");
  if (machine.name.empty()) machine.name = machine.id.empty() ? machine.uuid : machine.id;
  if (machine.name.empty()) reader.refuse({ErrorCode::bad_input, "a Device without name, id and uuid"});
  document_.machines.push_back(std::move(machine));
}

void ModelReading::start_item(XmlReader& reader, const XmlAttributes& attributes) {
  Item item;
  item.id = text_of(attributes, "id");
  item.name = text_of(attributes, "name");
  item.category = text_of(attributes, "category");
  item.type = text_of(attributes, "type");
  item.sub_type = text_of(attributes, "subType");
  item.units = text_of(attributes, "units");
  item.native_units = text_of(attributes, "nativeUnits");
  item.representation = text_of(attributes, "representation");
  item.coordinate_system = text_of(attributes, "coordinateSystem");
  if (item.representation.empty()) item.representation = "VALUE";
  const Component& component = components_.back();
  item.component = component.element;
  item.component_id = component.id;
  item.component_name = component.name;
  native_scale_ = read_number(attributes.find("nativeScale").value_or("1"));
  coordinate_reference_ = text_of(attributes, "coordinateSystemIdRef");
  if (++items_ > items_max) reader.refuse({ErrorCode::too_large, fmt::format("more than {} DataItems", items_max)});
  item_ = std::move(item);
}

void ModelReading::text(XmlReader&, std::string_view text) {
  if (is_error_) return error_.text(text);
  if (in_source_ && item_) item_->source += trim(text);
}

void ModelReading::end(XmlReader&, const XmlName& name) {
  if (is_error_) {
    if (levels_.size() > 1) error_.end(name);
    return;
  }
  if (name.local == "Source") in_source_ = false;
  if (name.local == "DataItem" && item_) end_item();
  if (levels_.back().opens_component) {
    components_.pop_back();
    if (components_.empty()) end_device();
  }
  if (agent_depth_ == levels_.size()) agent_depth_ = 0;
  levels_.pop_back();
}

void ModelReading::end_item() {
  if (!item_->id.empty()) {
    device_items_.push_back(std::move(*item_));
    references_.push_back(std::move(coordinate_reference_));
    scales_.push_back(native_scale_);
  }
  item_.reset();
}

// Coordinate systems may stand behind the items that refer to them, so items are finished with their device.
void ModelReading::end_device() {
  for (std::size_t n = 0; n < device_items_.size(); ++n) {
    Item& item = device_items_[n];
    if (const auto system = systems_.find(references_[n]); item.coordinate_system.empty() && system != systems_.end()) {
      item.coordinate_system = system->second;
    }
    native_scale_ = scales_[n];
    finish_item(std::move(item));
  }
  device_items_.clear();
  references_.clear();
  scales_.clear();
  systems_.clear();
}

void ModelReading::finish_item(Item item) {
  MachineModel& machine = document_.machines.back();
  const std::optional<double> factor = native_to_units(item.native_units, item.units, native_scale_);
  item.native_to_units = factor.value_or(1.0);
  const std::size_t first = machine.items.size();
  if (is_spatial_position(item)) {
    for (const char letter : {'x', 'y', 'z'}) machine.items.push_back(coordinate_of(item, letter));
  } else {
    machine.items.push_back(std::move(item));
  }
  for (std::size_t n = first; n < machine.items.size(); ++n) machine.items[n].role = role_of(machine.items[n]);
  const Item& last = machine.items.back();
  if (factor || last.role == counters::Role::none) return;
  document_.notes.push_back(
      {machine.name, fmt::format("{}: {} cannot be converted to {}; SHDR values are taken as they "
                                 "are",
                                 last.label(), last.native_units, last.units)});
}

Result<DevicesDocument> ModelReading::take(const std::string& name) {
  if (is_error_) return refuse(error_.error().as_error().at(name));
  if (document_.machines.empty()) return refuse(ErrorCode::bad_input, "{}: no Device in the document", name);
  if (document_.version.empty()) document_.version = version_in_header_;
  return std::move(document_);
}

}  // namespace

Result<DevicesDocument> read_devices(std::string_view document, const std::string& name) {
  ModelReading reading;
  XmlReader reader(reading, name);
  if (auto fed = reader.feed(document); !fed) return refuse(fed.error());
  if (auto finished = reader.finish(); !finished) return refuse(finished.error());
  return reading.take(name);
}

Result<DevicesDocument> read_devices_file(const std::string& path) {
  auto source = formats::open_file(path);
  if (!source) return refuse(source.error());
  ModelReading reading;
  if (auto read = formats::read_xml(**source, reading); !read) return refuse(read.error());
  return reading.take((*source)->name());
}

}  // namespace hw::feeds
