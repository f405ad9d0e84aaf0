#include "src/web/group_lines.h"

#include <boost/json/parse.hpp>
#include <boost/json/serialize.hpp>
#include <boost/json/value.hpp>
#include <fmt/format.h>

namespace hw::web {
namespace {

std::string in_json(const std::string& text) { return boost::json::serialize(boost::json::value(text)); }

std::string visits_in(const std::string& line) {
  boost::system::error_code failed;
  const boost::json::value parsed = boost::json::parse(line, failed);
  const boost::json::object* fields = failed ? nullptr : parsed.if_object();
  const boost::json::value* visits = fields ? fields->if_contains("visits") : nullptr;
  return visits ? boost::json::serialize(*visits) : "null";
}

// What people see of them: whether somebody holds a plant, not who.
bool is_same(const std::vector<service::PlantSeen>& a, const std::vector<service::PlantSeen>& b) {
  return std::equal(a.begin(), a.end(), b.begin(), b.end(), [](const auto& one, const auto& other) {
    return one.key == other.key && one.title == other.title && one.held_by.has_value() == other.held_by.has_value();
  });
}

}  // namespace

std::map<std::string, std::int64_t> GroupLines::known() const {
  const std::lock_guard lock(mutex_);
  std::map<std::string, std::int64_t> versions;
  for (const auto& [plant, line] : lines_) versions[plant] = line.version;
  return versions;
}

bool GroupLines::take(const std::vector<service::PlantSeen>& plants, std::vector<service::PublishedLine> lines) {
  const std::lock_guard lock(mutex_);
  if (is_told_ && lines.empty() && is_same(plants, plants_)) return false;
  is_told_ = true;
  floor_.reset();
  plants_ = plants;
  for (service::PublishedLine& line : lines) {
    std::string visits = visits_in(line.line);
    lines_[line.plant] = {line.version, std::move(line.line), std::move(visits)};
  }
  std::string text = "[";
  for (const service::PlantSeen& plant : plants_) {
    if (plant.key == service::group_key) continue;
    const auto line = lines_.find(plant.key);
    text +=
        fmt::format(R"({}{{"key":{},"title":{},"held":{},"line":{}}})", text.size() > 1 ? "," : "", in_json(plant.key),
                    in_json(plant.title), plant.held_by.has_value(), line == lines_.end() ? "null" : line->second.text);
  }
  text += "]";
  plants_text_ = std::move(text);
  return true;
}

http::SharedBytes GroupLines::floor(Instant now) {
  const std::lock_guard lock(mutex_);
  const bool is_fresh = floor_ && now - floor_at_ < now_within && floor_at_ - now < now_within;
  if (!is_fresh) {
    floor_ =
        std::make_shared<const std::string>(fmt::format(R"({{"now":"{}","plants":{}}})", print(now), plants_text_));
    floor_at_ = now;
  }
  return floor_;
}

std::string GroupLines::visits(Instant now) const {
  const std::lock_guard lock(mutex_);
  std::string text = fmt::format(R"({{"now":"{}","plants":[)", print(now));
  const char* before = "";
  for (const service::PlantSeen& plant : plants_) {
    if (plant.key == service::group_key) continue;
    const auto line = lines_.find(plant.key);
    text += fmt::format(R"({}{{"key":{},"title":{},"visits":{}}})", before, in_json(plant.key), in_json(plant.title),
                        line == lines_.end() ? "null" : line->second.visits);
    before = ",";
  }
  return text + "]}";
}

}  // namespace hw::web
