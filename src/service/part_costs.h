#pragma once
// What replacing a part costs when it is planned, and what it costs when the part fails first, piece by piece.
//
//   work    = minutes (labour + standing) + parts
//   planned = work + a third of a set-up        mostly taken along in a stop that is there anyway
//   failed  = work + a set-up (its hours standing + its cost) + hours it stands besides x standing + damage
//
// Work in production costs no standing. Money in the shop's currency. What the task does not say is our own choice:
// a third of a set-up (in the demo's rehearsals, about one in three doings more opens a stop of its own),
// 4 h that a machine stands for an unforeseen failure beside the work itself, no damage, parts for nothing.

#include <boost/describe.hpp>

#include "src/catalogue/stopping.h"
#include "src/catalogue/task.h"
#include "src/life/age_replacement.h"

namespace hw::service {

inline constexpr double failed_hours_unsaid = 4;
inline constexpr double set_up_share_planned = 1.0 / 3;

struct PartCostSums {
  double labour = 0;    // of the work
  double standing = 0;  // for the work
  double parts = 0;
  double set_up_share = 0;  // of a planned replacement
  double set_up = 0;        // of an unforeseen stop of its own
  double failed_standing = 0;
  double failed_damage = 0;
  bool is_hours_assumed = false;  // nobody said how long a failure stands the machine
  bool is_parts_unknown = false;

  double planned() const { return labour + standing + parts + set_up_share; }
  double failed() const { return labour + standing + parts + set_up + failed_standing + failed_damage; }
  life::ReplacementCosts replacement() const { return {planned(), failed()}; }
};

// `standing_per_hour` of the machine, or the mean of the machines that have the part.
PartCostSums part_costs(const catalogue::Task& task, const catalogue::Stopping& stopping, double standing_per_hour);

}  // namespace hw::service
