#pragma once
// One kind of part over the plants of a group: each plant's fit, that of all together, and whether they differ.

#include "src/service/group_lives.h"

namespace hw::service {

inline constexpr std::size_t survival_points_most = 40;  // told of a plant

// Nothing where fewer than two plants have lives on the counter of most of them. `as_of`: now.
std::optional<GroupPartStudyView> study_group_part(std::vector<const PartOfPlant*> parts, Instant as_of);

// What a plant's own lives say of the part: fit, survival, the interval that costs least.
PartOfPlant with_own_figures(PlantPart part);

}  // namespace hw::service
