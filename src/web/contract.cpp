#include "src/web/contract.h"

#include <charconv>

#include <boost/json/serialize.hpp>
#include <boost/json/value.hpp>
#include <yaml-cpp/yaml.h>

namespace hw::web {
namespace {

template <class Number>
bool read_number(const std::string& text, boost::json::value& out) {
  Number number{};
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
  if (error != std::errc{} || end != text.data() + text.size()) return false;
  out = number;
  return true;
}

boost::json::value scalar_of(const YAML::Node& node) {
  const std::string& text = node.Scalar();
  const bool is_plain = node.Tag() == "?";
  boost::json::value value;
  if (!is_plain) return boost::json::value(text);
  if (text == "true" || text == "false") return boost::json::value(text == "true");
  if (text == "null" || text == "~" || text.empty()) return value;
  if (read_number<std::int64_t>(text, value) || read_number<double>(text, value)) return value;
  return boost::json::value(text);
}

boost::json::value value_of(const YAML::Node& node) {
  if (node.IsMap()) {
    boost::json::object object;
    for (const auto& member : node) object.emplace(member.first.Scalar(), value_of(member.second));
    return object;
  }
  if (node.IsSequence()) {
    boost::json::array array;
    for (const auto& element : node) array.push_back(value_of(element));
    return array;
  }
  return node.IsScalar() ? scalar_of(node) : boost::json::value();
}

}  // namespace

Result<std::string> json_of_yaml(std::string_view yaml) {
  try {
    return boost::json::serialize(value_of(YAML::Load(std::string{yaml})));
  } catch (const YAML::Exception& error) {
    return refuse(ErrorCode::bad_input, "line {}, column {}: {}", error.mark.line + 1, error.mark.column + 1,
                  error.msg);
  }
}

}  // namespace hw::web
