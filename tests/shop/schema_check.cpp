#include "tests/shop/schema_check.h"

#include <algorithm>
#include <set>

#include <boost/json/serialize.hpp>
#include <fmt/format.h>

#include "libs/values/assert.h"
#include "libs/values/instant.h"
#include "libs/values/local_date.h"
#include "src/service/edits.h"

namespace hw::shop {
namespace {

namespace json = boost::json;

std::string text_of(const json::value& value) { return json::serialize(value).substr(0, 80); }

bool is_of_type(const json::value& value, std::string_view type) {
  if (type == "object") return value.is_object();
  if (type == "array") return value.is_array();
  if (type == "string") return value.is_string();
  if (type == "boolean") return value.is_bool();
  if (type == "null") return value.is_null();
  if (type == "integer") return value.is_int64() || value.is_uint64();
  HW_ASSERT(type == "number", "the contract's types are known here");
  return value.is_number();
}

bool is_of_format(std::string_view text, std::string_view format) {
  if (format == "uuid") return service::check_signature(text, "x").has_value();
  if (format == "date") return parse_local_date(text).has_value();
  HW_ASSERT(format == "date-time", "the contract's formats are known here");
  return text.ends_with('Z') && parse_instant(text).has_value();
}

class Checker {
 public:
  explicit Checker(const json::value& contract) : contract_(contract) {}

  void check(const json::value& value, const json::value& schema, const std::string& path) {
    const json::object& rules = schema.as_object();
    if (const auto* ref = rules.if_contains("$ref")) return check(value, resolve(ref->as_string()), path);
    if (const auto* choices = rules.if_contains("oneOf")) return check_one_of(value, choices->as_array(), path);
    if (const auto* words = rules.if_contains("enum")) check_enum(value, words->as_array(), path);
    if (const auto* type = rules.if_contains("type")) check_type(value, *type, path);
    if (const auto* format = rules.if_contains("format"); format && value.is_string()) {
      if (!is_of_format(value.as_string(), format->as_string())) add(path, value, format->as_string());
    }
    if (value.is_object()) check_members(value.as_object(), rules, path);
    if (const auto* items = rules.if_contains("items"); items && value.is_array()) {
      for (std::size_t i = 0; i < value.as_array().size(); ++i) {
        check(value.at(i), *items, fmt::format("{}[{}]", path, i));
      }
    }
  }

  std::vector<std::string> mistakes;

 private:
  void add(const std::string& path, const json::value& value, std::string_view wanted) {
    mistakes.push_back(fmt::format("{}: {} is no {}", path, text_of(value), wanted));
  }

  const json::value& resolve(std::string_view ref) const {
    HW_ASSERT(ref.starts_with("#/"), "references stay in the contract");
    return contract_.at_pointer(ref.substr(1));
  }

  void check_one_of(const json::value& value, const json::array& choices, const std::string& path) {
    std::vector<std::string> nearest;
    for (const json::value& choice : choices) {
      Checker one(contract_);
      one.check(value, choice, path);
      if (one.mistakes.empty()) return;
      if (nearest.empty() || one.mistakes.size() < nearest.size()) nearest = one.mistakes;
    }
    mistakes.insert(mistakes.end(), nearest.begin(), nearest.end());
  }

  void check_enum(const json::value& value, const json::array& words, const std::string& path) {
    if (std::find(words.begin(), words.end(), value) == words.end()) add(path, value, text_of(words));
  }

  void check_type(const json::value& value, const json::value& type, const std::string& path) {
    const auto fits = [&](const json::value& one) { return is_of_type(value, one.as_string()); };
    const bool is_right =
        type.is_array() ? std::any_of(type.as_array().begin(), type.as_array().end(), fits) : fits(type);
    if (!is_right) add(path, value, text_of(type));
  }

  void check_members(const json::object& object, const json::object& rules, const std::string& path) {
    if (const auto* required = rules.if_contains("required")) {
      for (const json::value& name : required->as_array()) {
        if (!object.contains(name.as_string())) mistakes.push_back(path + ": no " + text_of(name));
      }
    }
    const auto* properties = rules.if_contains("properties");
    const auto* others = rules.if_contains("additionalProperties");
    for (const auto& [name, member] : object) {
      const std::string place = path + "." + std::string{name};
      const auto* schema = properties ? properties->as_object().if_contains(name) : nullptr;
      if (!schema) schema = others;
      if (schema) {
        check(member, *schema, place);
      } else if (properties) {
        mistakes.push_back(place + ": is not in the contract");
      }
    }
  }

  const json::value& contract_;
};

}  // namespace

std::vector<std::string> mistakes_in(const json::value& value, const json::value& schema, const json::value& contract) {
  Checker checker(contract);
  checker.check(value, schema, "$");
  return std::move(checker.mistakes);
}

}  // namespace hw::shop
