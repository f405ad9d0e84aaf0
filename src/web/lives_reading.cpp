#include "src/web/lives_reading.h"

#include <algorithm>

#include <fmt/format.h>

namespace hw::web {

void LivesReading::step(const std::vector<service::PlantSeen>& plants, Instant now) {
  std::vector<std::string> keys;
  std::vector<const service::PlantSeen*> own;  // the group itself has no machines
  for (const service::PlantSeen& plant : plants) {
    if (plant.key == service::group_key) continue;
    keys.push_back(plant.key);
    own.push_back(&plant);
  }
  std::erase_if(read_at_,
                [&](const auto& one) { return std::find(keys.begin(), keys.end(), one.first) == keys.end(); });
  lives_.keep_only(keys);
  for (std::size_t looked_at = 0; looked_at < std::min(own.size(), looked_at_most); ++looked_at) {
    const service::PlantSeen& plant = *own[next_++ % own.size()];
    const auto read = read_if_changed(plant, now);
    if (!read) report_(read.error().at(fmt::format("lives of plant {}", plant.key)).message);
    if (!read || *read) break;
  }
  lives_.study_next(now);
}

Result<bool> LivesReading::read_if_changed(const service::PlantSeen& plant, Instant now) {
  const auto store = plants_.look_at(plant.key);
  HW_TAKE(newest, store->entries({}, 1));
  const ReadAt at{newest.empty() ? "" : newest.front().id, now.as_millis() / 86'400'000, plant.title};
  ReadAt& before = read_at_[plant.key];
  if (before == at) return false;
  before = at;
  HW_TAKE(shop, service::OpenShop::open(*store));
  HW_TAKE(parts, service::plant_parts(*shop, now));
  lives_.take(plant.key, plant.title, std::move(parts));
  return true;
}

}  // namespace hw::web
