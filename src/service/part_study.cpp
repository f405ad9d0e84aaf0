#include "src/service/part_study.h"

#include <algorithm>
#include <cmath>

namespace hw::service {
namespace {

constexpr double running_hours_alike = 25;  // what a part can have run on since this morning

// Of the machines that have the part.
double mean_standing(const OpenShop& shop, const std::vector<PartPlace>& places) {
  double sum = 0;
  for (const PartPlace& place : places) {
    const auto machine = shop.find(place.machine);
    const auto own = machine ? (*machine)->record.machine.standing_per_hour : std::nullopt;
    sum += own.value_or(shop.record().stopping.standing_per_hour);
  }
  return sum / static_cast<double>(places.size());
}

void fit(PartStudy& study) {
  const life::WeibullLikelihood likelihood(study.lives);
  auto fitted = life::fit_weibull(likelihood);
  if (!fitted) {
    study.refused = std::move(fitted.error());
    return;
  }
  study.fit = *fitted;
  auto believed = life::believed_lives(likelihood, *fitted);
  if (!believed) {
    study.no_choice = std::move(believed.error());
    return;
  }
  study.believed = std::move(*believed);
  if (study.interval) {
    study.choice = life::choose_interval(study.believed, study.costs.replacement(), *study.interval,
                                         life::oldest_age(study.lives));
  }
}

// The same record of doings and intervals: only the parts that run have grown older.
bool says_the_same(const LivesOfPart& one, const LivesOfPart& other) {
  const auto is_same_life = [](const SeenLife& a, const SeenLife& b) {
    const bool has_grown = !a.entry && std::abs(a.life.lower - b.life.lower) < running_hours_alike;
    return a.entry == b.entry && a.found == b.found && a.life.upper == b.life.upper &&
           (a.life.lower == b.life.lower || has_grown);
  };
  const auto is_same_place = [](const PartPlace& a, const PartPlace& b) {
    return a.machine == b.machine && a.interval == b.interval && a.version == b.version;
  };
  return one.left_out.size() == other.left_out.size() &&
         std::equal(one.lives.begin(), one.lives.end(), other.lives.begin(), other.lives.end(), is_same_life) &&
         std::equal(one.places.begin(), one.places.end(), other.places.begin(), other.places.end(), is_same_place);
}

}  // namespace

std::optional<double> middle_interval(const std::vector<PartPlace>& places) {
  std::vector<double> intervals;
  for (const PartPlace& place : places) {
    if (place.interval) intervals.push_back(*place.interval);
  }
  if (intervals.empty()) return std::nullopt;
  std::sort(intervals.begin(), intervals.end());
  return intervals[(intervals.size() - 1) / 2];
}

PartCostSums costs_of_part(const OpenShop& shop, const LivesOfPart& seen) {
  const auto lock = shop.look();
  return part_costs(seen.task, shop.record().stopping, mean_standing(shop, seen.places));
}

PartStudy study_lives(const OpenShop& shop, LivesOfPart seen) {
  PartStudy study;
  study.seen = std::move(seen);
  for (const SeenLife& one : study.seen.lives) study.lives.push_back(one.life);
  study.interval = middle_interval(study.seen.places);
  study.costs = costs_of_part(shop, study.seen);
  fit(study);
  return study;
}

std::uint64_t PartStudies::version_of(const std::string& kind) const {
  std::uint64_t version = 0;
  for (const auto& machine : shop_.machines()) {
    if (machine->record.machine.kind == kind) version += machine->tasks_version + machine->adjustments.size();
  }
  return version;
}

Result<std::shared_ptr<const PartStudy>> PartStudies::of(const PartName& name, Instant now) {
  const LocalDate today = shop_.calendar().zone.date_of(now);
  std::uint64_t version = 0;
  {
    const auto lock = shop_.look();
    version = version_of(name.kind);
  }
  {
    const std::lock_guard lock(mutex_);
    const auto there = kept_.find(name);
    if (there != kept_.end() && there->second.tasks_version == version && there->second.on == today) {
      return there->second.study;
    }
  }
  HW_TAKE(seen, lives_of_part(shop_, name, now));
  {
    const std::lock_guard lock(mutex_);
    const auto there = kept_.find(name);
    if (there != kept_.end() && there->second.on == today && says_the_same(there->second.study->seen, seen)) {
      there->second.tasks_version = version;
      return there->second.study;
    }
  }
  auto study = std::make_shared<const PartStudy>(study_lives(shop_, std::move(seen)));
  const std::lock_guard lock(mutex_);
  kept_[name] = {study, version, today};
  return study;
}

Result<std::vector<std::shared_ptr<const PartStudy>>> PartStudies::all(Instant now) {
  std::vector<PartName> names;
  {
    const auto lock = shop_.look();
    names = parts_of(shop_);
  }
  std::vector<std::shared_ptr<const PartStudy>> studies;
  for (const PartName& name : names) {
    HW_TAKE(study, of(name, now));
    studies.push_back(study);
  }
  return studies;
}

}  // namespace hw::service
