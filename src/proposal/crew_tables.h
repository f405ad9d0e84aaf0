#pragma once
// Who is there when: a crew for each skill, from the shop's [[crew]] tables or the defaults, its absences and the
// plant's closed days.

#include <vector>

#include "src/proposal/plant_slots.h"
#include "src/proposal/shop_ahead.h"

namespace hw::proposal {

// What a crew has for stops in one slot, absences and closed days counted in.
struct CrewTime {
  double hours = 0;
  double overtime = 0;  // beyond them, at most
  double premium_per_hour = 0;
};
CrewTime crew_time(const ShopAhead& shop, const PlantSlots& slots, catalogue::Skill skill, PlantSlot slot);

// The days of a plan, counted from today; nobody is there before the first.
struct DaySpan {
  int first = 0;
  int days = 0;
};

// In the order operator, technician, outside service; closed days aside.
std::vector<plan::Crew> crews_of(const ShopAhead& shop, const PlantSlots& slots, const DaySpan& span);

// The absences of a skill, or of persons who have it, that touch that day.
std::vector<const catalogue::Absence*> absences_on(const ShopAhead& shop, catalogue::Skill skill, LocalDate day);

}  // namespace hw::proposal
