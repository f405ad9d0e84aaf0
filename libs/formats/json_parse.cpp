#include "libs/formats/json_parse.h"

#include <algorithm>

namespace hw::formats {
namespace {

std::string_view kind_of(const boost::json::value& tree) {
  switch (tree.kind()) {
    case boost::json::kind::null:
      return "null";
    case boost::json::kind::bool_:
      return "true or false";
    case boost::json::kind::int64:
    case boost::json::kind::uint64:
    case boost::json::kind::double_:
      return "a number";
    case boost::json::kind::string:
      return "a text";
    case boost::json::kind::array:
      return "a list";
    case boost::json::kind::object:
      return "an object";
  }
  return "nothing";
}

}  // namespace

std::string JsonPlace::print() const {
  if (above == nullptr) return "";
  std::string path = above->print();
  if (index) return path + fmt::format("[{}]", *index);
  if (!path.empty()) path += '.';
  return path.append(key);
}

Error JsonPlace::error(std::string_view what) const {
  const std::string path = print();
  return {ErrorCode::bad_input, path.empty() ? std::string(what) : fmt::format("{}: {}", path, what)};
}

Error JsonPlace::wrong_kind(std::string_view wanted, const boost::json::value& found) const {
  return error(fmt::format("must be {}, not {}", wanted, kind_of(found)));
}

Result<void> JsonReading::read(const Tree& tree, bool& out, const Place& place) {
  if (!tree.is_bool()) return refuse(place.wrong_kind("true or false", tree));
  out = tree.get_bool();
  return {};
}

Result<void> JsonReading::read(const Tree& tree, double& out, const Place& place) {
  if (!tree.is_number()) return refuse(place.wrong_kind("a number", tree));
  out = tree.to_number<double>();
  return {};
}

Result<void> JsonReading::read(const Tree& tree, std::string& out, const Place& place) {
  if (!tree.is_string()) return refuse(place.wrong_kind("a text", tree));
  out.assign(tree.get_string().data(), tree.get_string().size());
  return {};
}

Result<void> JsonReading::read(const Tree& tree, Tree& out, const Place&) {
  out = tree;
  return {};
}

Error JsonReading::wrong_integer(const Tree& tree, const Place& place, std::string_view min, std::string_view max) {
  if (!tree.is_number()) return place.wrong_kind("a whole number", tree);
  return place.error(fmt::format("must be a whole number from {} to {}, written without point or exponent", min, max));
}

Error JsonReading::unknown_field(const boost::json::object& object, const std::vector<std::string_view>& known,
                                 const Place& place) {
  for (const auto& member : object) {
    const std::string_view key(member.key().data(), member.key().size());
    if (std::find(known.begin(), known.end(), key) != known.end()) continue;
    return Place{&place, key, {}}.error(fmt::format("no such field here; known are {}", fmt::join(known, ", ")));
  }
  return place.error("holds a field that is not known");
}

}  // namespace hw::formats
