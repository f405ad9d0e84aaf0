#include "src/simulate/json_form.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <vector>

#include "libs/formats/json.h"
#include "libs/formats/xml_reader.h"
#include "libs/values/assert.h"

namespace hw::simulate {
namespace {

namespace json = boost::json;

// What holds a list of elements and stands once in its parent.
constexpr std::array<std::string_view, 7> list_elements{"Streams", "Devices", "Components", "DataItems",
                                                        "Samples", "Events",  "Condition"};
constexpr std::array<std::string_view, 4> single_elements{"Header", "Description", "Source", "Errors"};

template <std::size_t n>
bool is_among(const std::array<std::string_view, n>& names, std::string_view name) {
  return std::find(names.begin(), names.end(), name) != names.end();
}

// A whole number of a header or a sequence is a number in JSON, all else stays a text as it stands.
json::value value_of(std::string_view text) {
  std::uint64_t number = 0;
  const auto [end, trouble] = std::from_chars(text.data(), text.data() + text.size(), number);
  if (trouble == std::errc{} && end == text.data() + text.size() && !text.empty()) return number;
  return json::string(text);
}

struct Element {
  std::string name;
  json::object members = {};
  std::vector<Element> children = {};
};

json::value print_element(const Element& element, JsonForm form);

json::array wrapped(const std::vector<Element>& children, JsonForm form) {
  json::array list;
  for (const Element& child : children) list.push_back(json::object{{child.name, print_element(child, form)}});
  return list;
}

void add_to(json::object& object, std::string_view name, json::value value) {
  json::value& list = object[name];
  if (!list.is_array()) list = json::array{};
  list.get_array().push_back(std::move(value));
}

json::value print_element(const Element& element, JsonForm form) {
  if (form == JsonForm::v1 && is_among(list_elements, element.name)) return wrapped(element.children, form);
  json::object object = element.members;
  for (const Element& child : element.children) {
    const bool is_single = is_among(list_elements, child.name) || is_among(single_elements, child.name);
    if (is_single) {
      object[child.name] = print_element(child, form);
    } else if (form == JsonForm::v1) {
      add_to(object, child.name + "s", json::object{{child.name, print_element(child, form)}});
    } else {
      add_to(object, child.name, print_element(child, form));
    }
  }
  return object;
}

class ElementReading : public formats::XmlHandler {
 public:
  void start(formats::XmlReader&, const formats::XmlName& name, const formats::XmlAttributes& attributes) override {
    Element element{std::string(name.local)};
    for (const auto& attribute : attributes) {
      if (attribute.name.prefix.empty() && attribute.name.local != "xmlns") {
        element.members[attribute.name.local] = value_of(attribute.value);
      }
    }
    if (open_.empty()) element.members["schemaVersion"] = json::string(version_of(attributes));
    open_.push_back(std::move(element));
  }
  void text(formats::XmlReader&, std::string_view text) override {
    if (text.find_first_not_of(" \n") != std::string_view::npos) open_.back().members["value"] = value_of(text);
  }
  void end(formats::XmlReader&, const formats::XmlName&) override {
    Element element = std::move(open_.back());
    open_.pop_back();
    (open_.empty() ? root_ : open_.back().children.emplace_back()) = std::move(element);
  }
  Element& root() { return root_; }

 private:
  static std::string version_of(const formats::XmlAttributes& attributes) {
    const std::string_view urn = attributes.find("xmlns").value_or("");
    return std::string(urn.substr(urn.rfind(':') + 1));
  }
  std::vector<Element> open_;
  Element root_;
};

}  // namespace

std::string print_json_form(std::string_view xml, JsonForm form) {
  ElementReading reading;
  formats::XmlReader reader(reading, "document");
  HW_ASSERT(reader.feed(xml) && reader.finish(), "the agent's own documents are XML");
  Element& root = reading.root();
  root.members["jsonVersion"] = form == JsonForm::v1 ? 1 : 2;
  return formats::print_json(json::value(json::object{{root.name, print_element(root, form)}}));
}

}  // namespace hw::simulate
