#include "src/service/group_lives.h"

#include <algorithm>
#include <cmath>

#include "src/service/group_part.h"
#include "src/service/part_study.h"

namespace hw::service {
namespace {

constexpr double grown_alike = 25;  // of a part at work: what it can have run on in a day

// The same but for parts at work that have grown a little older.
bool says_the_same(const PlantPart& one, const PlantPart& other) {
  const auto is_same = [](const life::Observed& a, const life::Observed& b) {
    const bool has_grown = life::is_suspended(a) && std::abs(a.lower - b.lower) < std::min(grown_alike, 0.02 * a.lower);
    return a.upper == b.upper && (a.lower == b.lower || has_grown);
  };
  return one.title == other.title && one.work == other.work && one.counter == other.counter &&
         one.machines == other.machines && one.interval == other.interval && one.left_out == other.left_out &&
         one.costs.planned == other.costs.planned && one.costs.failed == other.costs.failed &&
         std::equal(one.lives.begin(), one.lives.end(), other.lives.begin(), other.lives.end(), is_same);
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

void GroupLives::take(const std::string& plant, const std::string& title, std::vector<PlantPart> parts) {
  Plant& before = plants_[plant];
  Plant then{title, {}};
  for (PlantPart& part : parts) {
    const PartName name = part.name;
    const auto there = before.parts.find(name);
    const bool is_same = there != before.parts.end() && says_the_same(there->second.part, part);
    if (!is_same || before.title != title) waiting_.insert(name);
    then.parts[name] = is_same ? std::move(there->second) : with_own_figures(std::move(part));
    then.parts[name].own.plant = plant;
    then.parts[name].own.title = title;
  }
  for (const auto& [name, part] : before.parts) {
    if (!then.parts.contains(name)) waiting_.insert(name);
  }
  before = std::move(then);
  const std::lock_guard lock(mutex_);
  plants_read_ = static_cast<int>(plants_.size());
}

void GroupLives::keep_only(const std::vector<std::string>& plants) {
  for (auto at = plants_.begin(); at != plants_.end();) {
    if (std::find(plants.begin(), plants.end(), at->first) != plants.end()) {
      ++at;
      continue;
    }
    for (const auto& [name, part] : at->second.parts) waiting_.insert(name);
    at = plants_.erase(at);
  }
  const std::lock_guard lock(mutex_);
  plants_read_ = static_cast<int>(plants_.size());
  plants_all_ = static_cast<int>(plants.size());
}

// In turn, so that a part that changes all the time keeps no other one waiting.
bool GroupLives::study_next(Instant now) {
  if (waiting_.empty()) return false;
  auto next = waiting_.upper_bound(studied_last_);
  if (next == waiting_.end()) next = waiting_.begin();
  const PartName name = studied_last_ = *next;
  waiting_.erase(next);
  std::vector<const PartOfPlant*> parts;
  for (const auto& [key, plant] : plants_) {
    const auto part = plant.parts.find(name);
    if (part != plant.parts.end()) parts.push_back(&part->second);
  }
  auto studied = study_group_part(std::move(parts), now);
  const std::lock_guard lock(mutex_);
  if (studied) {
    studies_[name] = std::make_shared<const GroupPartStudyView>(std::move(*studied));
  } else {
    studies_.erase(name);
  }
  return true;
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
  std::shared_ptr<const GroupPartStudyView> study;
  {
    const std::lock_guard lock(mutex_);
    const auto there = studies_.find(name);
    if (there != studies_.end()) study = there->second;
  }
  if (!study) {
    return refuse(ErrorCode::not_found, Saying{"no-group-part"},
                  "no two plants have lives of a part that \"{}\" replaces on machines of the kind {}",
                  name.task.substr(0, 60), name.kind.substr(0, 40));
  }
  GroupPartStudyView view = *study;
  view.now = now;
  return view;
}

}  // namespace hw::service
