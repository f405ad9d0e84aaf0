#pragma once
// Lives of parts over the plants of a group, and whether the plants differ in them.
//
// A kind of part is the same in two plants where a task of the same key, from the library, of the same work type,
// replaces or overhauls it on machines of the same kind, and where its lives are counted on the same counter: that of
// most plants, others are left out. Own tasks of a plant are left out, as two plants' keys may mean two things.
// Builders, models, part numbers and how machines are used are not compared: they are what plants may differ in.

#include <map>
#include <memory>
#include <mutex>
#include <set>

#include "src/life/age_replacement.h"
#include "src/service/group_lives_views.h"
#include "src/service/lives_of_part.h"

namespace hw::service {

// What one plant has of one kind of part.
struct PlantPart {
  PartName name;
  std::string title;
  catalogue::WorkType work = catalogue::WorkType::replace;
  std::optional<std::string> counter;  // nothing: days
  std::string unit;
  int machines = 0;
  std::optional<double> interval;  // the present one, of several the middle one
  life::ReplacementCosts costs;    // in the plant's own currency
  std::vector<life::Observed> lives;
  int left_out = 0;
};

// Those of the library's parts of which the plant knows any life. The caller holds no lock. Errors: what the store
// refuses.
Result<std::vector<PlantPart>> plant_parts(const OpenShop& shop, Instant now);

// The same with what its own lives say.
struct PartOfPlant {
  PlantPart part;
  GroupPartPlantView own;  // without what takes the other plants
};

// For several threads at once; only one takes and studies. What is asked was worked out before.
class GroupLives {
 public:
  // What a plant has from now on. Parts at work that have only grown a little older change nothing.
  void take(const std::string& plant, const std::string& title, std::vector<PlantPart> parts);
  // Works out one kind of part of which lives have changed: up to a second or two in a large group. False: none waits.
  bool study_next(Instant now);
  // Forgets the plants that are not among these keys. Their number is that of the group.
  void keep_only(const std::vector<std::string>& plants);

  GroupPartsView parts(Instant now) const;
  // Errors: not_found where no two plants have lives of such a part.
  Result<GroupPartStudyView> part(const PartName& name, Instant now) const;

 private:
  struct Plant {
    std::string title;
    std::map<PartName, PartOfPlant> parts;
  };
  // Of the one thread that takes:
  std::map<std::string, Plant> plants_;
  std::set<PartName> waiting_;  // to be studied
  PartName studied_last_;

  mutable std::mutex mutex_;
  std::map<PartName, std::shared_ptr<const GroupPartStudyView>> studies_;
  int plants_read_ = 0;
  int plants_all_ = 0;
};

}  // namespace hw::service
