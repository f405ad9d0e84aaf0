#include "src/service/part_costs.h"

namespace hw::service {

PartCostSums part_costs(const catalogue::Task& task, const catalogue::Stopping& stopping, double standing_per_hour) {
  const double hours = task.minutes / 60;
  const bool stands = task.energy != catalogue::EnergyState::in_production;
  const auto& set_up = catalogue::set_up_of(stopping, task.energy);
  const catalogue::PartCosts said = task.costs.value_or(catalogue::PartCosts{});
  PartCostSums sums;
  sums.labour = hours * stopping.labour_per_hour;
  sums.standing = stands ? hours * standing_per_hour : 0;
  sums.parts = said.parts;
  sums.is_parts_unknown = said.parts == 0;
  sums.set_up = set_up.hours * standing_per_hour + set_up.cost;
  sums.set_up_share = set_up_share_planned * sums.set_up;
  sums.is_hours_assumed = said.failed_hours == 0;
  sums.failed_standing = (sums.is_hours_assumed ? failed_hours_unsaid : said.failed_hours) * standing_per_hour;
  sums.failed_damage = said.failed_damage;
  return sums;
}

}  // namespace hw::service
