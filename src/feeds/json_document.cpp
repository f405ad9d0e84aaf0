#include "src/feeds/json_document.h"

#include <algorithm>

#include "libs/formats/json.h"
#include "libs/formats/xml_text.h"

namespace hw::feeds {
namespace {

namespace json = boost::json;

bool begins_name(char c) { return (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') || c == '_'; }
bool goes_on_in_name(char c) { return begins_name(c) || (c >= '0' && c <= '9') || c == '-' || c == '.' || c == ':'; }

bool is_name(std::string_view text) {
  return !text.empty() && begins_name(text[0]) && std::all_of(text.begin(), text.end(), goes_on_in_name);
}

void add_plain(std::string& out, const json::value& value) {
  if (value.is_string()) {
    const auto& text = value.get_string();
    out += formats::escape_xml({text.data(), text.size()});
    return;
  }
  if (!value.is_null()) out += formats::print_json(value);
}

bool is_plain(const json::value& value) { return !value.is_object() && !value.is_array(); }

// A list whose members are each the one element that they name.
bool is_wrapping(const json::array& list) {
  return std::all_of(list.begin(), list.end(), [](const json::value& one) {
    const json::object* object = one.if_object();
    return object != nullptr && object->size() == 1 && object->begin()->value().is_object();
  });
}

class XmlPrinting {
 public:
  explicit XmlPrinting(int json_version) : json_version_(json_version) {}

  Result<void> element(std::string_view name, const json::value& value, std::string_view more = {}) {
    if (!is_name(name)) return refuse(ErrorCode::bad_input, "\"{}\" is no element's name", name.substr(0, 60));
    out_ += '<';
    out_ += name;
    out_ += more;
    const json::object* object = value.if_object();
    if (object != nullptr) add_attributes(*object);
    out_ += '>';
    if (object == nullptr) {
      add_text(value);
    } else {
      if (const json::value* text = object->if_contains("value")) add_text(*text);
      HW_TRY(children(*object));
    }
    out_ += "</";
    out_ += name;
    out_ += '>';
    return {};
  }
  std::string take() { return std::move(out_); }

 private:
  void add_attributes(const json::object& object) {
    for (const auto& [key, value] : object) {
      const std::string_view name{key.data(), key.size()};
      if (!is_plain(value) || value.is_null() || name == "value" || !is_name(name) || name.starts_with("xmlns"))
        continue;
      out_ += fmt::format(" {}=\"", name);
      add_plain(out_, value);
      out_ += '"';
    }
  }

  // A data set's value is an object, which no counter uses.
  void add_text(const json::value& value) {
    if (const json::array* list = value.if_array()) {
      for (const json::value& one : *list) {
        if (&one != list->data()) out_ += ' ';
        add_plain(out_, one);
      }
    } else if (is_plain(value)) {
      add_plain(out_, value);
    }
  }

  Result<void> children(const json::object& object) {
    for (const auto& [key, value] : object) {
      const std::string_view name{key.data(), key.size()};
      if (name == "value" || is_plain(value)) continue;
      if (const json::array* list = value.if_array()) {
        HW_TRY(elements(name, *list));
      } else {
        HW_TRY(element(name, value));
      }
    }
    return {};
  }

  Result<void> elements(std::string_view name, const json::array& list) {
    const bool wraps = json_version_ == 0 ? is_wrapping(list) : json_version_ == 1;
    if (!wraps) {
      for (const json::value& one : list) HW_TRY(element(name, one));
      return {};
    }
    if (!is_name(name)) return refuse(ErrorCode::bad_input, "\"{}\" is no element's name", name.substr(0, 60));
    out_ += fmt::format("<{}>", name);
    for (const json::value& one : list) {
      if (const json::object* object = one.if_object()) HW_TRY(children(*object));
    }
    out_ += fmt::format("</{}>", name);
    return {};
  }

  int json_version_;
  std::string out_;
};

int json_version_of(const json::object& root) {
  const json::value* version = root.if_contains("jsonVersion");
  if (version == nullptr) return 0;
  if (version->is_int64()) return version->get_int64() == 1 ? 1 : 2;
  return version->is_string() && version->get_string() == "1" ? 1 : 2;
}

// xmlns="urn:mtconnect.org:MTConnectStreams:2.0", from which readers take the version.
std::string namespace_of(std::string_view kind, const json::object& root) {
  const json::value* version = root.if_contains("schemaVersion");
  if (version == nullptr || !is_plain(*version)) return {};
  std::string text;
  add_plain(text, *version);
  return fmt::format(" xmlns=\"urn:mtconnect.org:{}:{}\"", kind, text);
}

Result<std::string> print_document(const json::value& tree) {
  const json::object* document = tree.if_object();
  if (document == nullptr || document->size() != 1 || !document->begin()->value().is_object()) {
    return refuse(ErrorCode::bad_input, "must be an object with one member, as {{\"MTConnectStreams\": {{...}}}}");
  }
  const std::string_view kind{document->begin()->key().data(), document->begin()->key().size()};
  const json::object& root = document->begin()->value().get_object();
  XmlPrinting printing(json_version_of(root));
  HW_TRY(printing.element(kind, document->begin()->value(), namespace_of(kind, root)));
  return printing.take();
}

}  // namespace

Result<std::string> xml_of_json(std::string_view document, std::string_view name) {
  const auto tree = formats::parse_json_tree(document, {.bytes_max = document_bytes_max, .depth_max = 64});
  if (!tree) return refuse(tree.error().at(name));
  auto printed = print_document(*tree);
  if (!printed) return refuse(printed.error().at(name));
  return printed;  // moved: a copy of a Result cannot say that there is no memory for it
}

}  // namespace hw::feeds
