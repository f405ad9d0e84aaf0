#include "src/service/group_lives.h"

#include <algorithm>
#include <cmath>
#include <set>

#include "src/service/group_part.h"
#include "src/service/part_study.h"

namespace hw::service {
namespace {

bool says_the_same(const PlantPart& one, const PlantPart& other) {
  const auto is_same = [](const life::Observed& a, const life::Observed& b) {
    return a.lower == b.lower && a.upper == b.upper;
  };
  return one.counter == other.counter && one.machines == other.machines && one.interval == other.interval &&
         one.costs.planned == other.costs.planned && one.costs.failed == other.costs.failed &&
         std::equal(one.lives.begin(), one.lives.end(), other.lives.begin(), other.lives.end(), is_same);
}

const PlantPart* part_named(const std::vector<PlantPart>& parts, const PartName& name) {
  const auto there = std::find_if(parts.begin(), parts.end(), [&](const PlantPart& one) { return one.name == name; });
  return there == parts.end() ? nullptr : &*there;
}

// The names of those parts that are other than before.
std::set<PartName> changed_parts(const std::vector<PlantPart>& before, const std::vector<PlantPart>& now) {
  std::set<PartName> names;
  for (const PlantPart& part : now) {
    const PlantPart* old = part_named(before, part.name);
    if (!old || !says_the_same(*old, part)) names.insert(part.name);
  }
  for (const PlantPart& part : before) {
    if (!part_named(now, part.name)) names.insert(part.name);
  }
  return names;
}

}  // namespace

Result<std::vector<PlantPart>> plant_parts(const OpenShop& shop, Instant now) {
  std::vector<PartName> names;
  {
    const auto lock = shop.look();
    names = parts_of(shop);
  }
  std::vector<PlantPart> parts;
  for (const PartName& name : names) {
    HW_TAKE(seen, lives_of_part(shop, name, now));
    if (seen.is_own || seen.lives.empty()) continue;
    PlantPart part{.name = name,
                   .title = seen.task.title,
                   .work = seen.task.work,
                   .counter = seen.counter,
                   .unit = seen.unit,
                   .machines = static_cast<int>(seen.places.size()),
                   .interval = middle_interval(seen.places),
                   .costs = costs_of_part(shop, seen).replacement(),
                   .lives = {},
                   .left_out = static_cast<int>(seen.left_out.size())};
    for (const SeenLife& one : seen.lives) part.lives.push_back(one.life);
    parts.push_back(std::move(part));
  }
  return parts;
}

void GroupLives::take(const std::string& plant, const std::string& title, std::vector<PlantPart> parts, Instant now) {
  Plant& there = plants_[plant];
  std::set<PartName> names = changed_parts(there.parts, parts);
  if (there.title != title) {
    for (const PlantPart& part : parts) names.insert(part.name);
  }
  there = {title, std::move(parts)};
  for (const PartName& name : names) study(name, now);
  const std::lock_guard lock(mutex_);
  plants_read_ = static_cast<int>(plants_.size());
}

void GroupLives::keep_only(const std::vector<std::string>& plants) {
  std::set<PartName> names;
  for (auto at = plants_.begin(); at != plants_.end();) {
    if (std::find(plants.begin(), plants.end(), at->first) != plants.end()) {
      ++at;
      continue;
    }
    for (const PlantPart& part : at->second.parts) names.insert(part.name);
    at = plants_.erase(at);
  }
  for (const PartName& name : names) {
    const auto kept = studies_.find(name);
    if (kept != studies_.end()) study(name, kept->second->as_of);
  }
  const std::lock_guard lock(mutex_);
  plants_read_ = static_cast<int>(plants_.size());
  plants_all_ = static_cast<int>(plants.size());
}

void GroupLives::study(const PartName& name, Instant now) {
  std::vector<PartOfPlant> parts;
  for (const auto& [key, plant] : plants_) {
    if (const PlantPart* part = part_named(plant.parts, name)) parts.push_back({key, plant.title, part});
  }
  auto studied = study_group_part(std::move(parts), now);
  const std::lock_guard lock(mutex_);
  if (studied) {
    studies_[name] = std::make_shared<const GroupPartStudyView>(std::move(*studied));
  } else {
    studies_.erase(name);
  }
}

GroupPartsView GroupLives::parts(Instant now) const {
  GroupPartsView view{.now = now, .parts = {}};
  {
    const std::lock_guard lock(mutex_);
    view.plants = plants_all_;
    view.plants_read = plants_read_;
    for (const auto& [name, study] : studies_) view.parts.push_back(study->part);
  }
  const auto rank = [](const GroupPartView& part) { return std::pair{part.verdict == "differ", part.failures}; };
  std::stable_sort(view.parts.begin(), view.parts.end(),
                   [&](const GroupPartView& a, const GroupPartView& b) { return rank(a) > rank(b); });
  return view;
}

Result<GroupPartStudyView> GroupLives::part(const PartName& name, Instant now) const {
  const std::lock_guard lock(mutex_);
  const auto there = studies_.find(name);
  if (there == studies_.end()) {
    return refuse(ErrorCode::not_found, Saying{"no-group-part"},
                  "no two plants have lives of a part that \"{}\" replaces on machines of the kind {}",
                  name.task.substr(0, 60), name.kind.substr(0, 40));
  }
  GroupPartStudyView view = *there->second;
  view.now = now;
  return view;
}

}  // namespace hw::service
