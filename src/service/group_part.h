#pragma once
// One kind of part over the plants of a group: each plant's fit, that of all together, and whether they differ.

#include "src/service/group_lives.h"

namespace hw::service {

struct PartOfPlant {
  std::string plant;
  std::string title;
  const PlantPart* part = nullptr;
};

inline constexpr std::size_t survival_points_most = 40;  // told of a plant

// Nothing where fewer than two plants have lives on the counter of most of them. `as_of`: when the lives were read.
std::optional<GroupPartStudyView> study_group_part(std::vector<PartOfPlant> parts, Instant as_of);

}  // namespace hw::service
