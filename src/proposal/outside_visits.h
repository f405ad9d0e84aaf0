#pragma once
// The outside service comes to the plant: one visit for all that it does there in a shift, with what its way costs and
// takes (Stopping::outside_visit). In an instance the plant is one place, to which this crew alone travels.

#include <string>
#include <vector>

#include "src/plan/stop_plan.h"
#include "src/proposal/plant_slots.h"
#include "src/proposal/shop_ahead.h"

namespace hw::proposal {

inline constexpr const char* plant_place = "plant";

// What the crew of that skill has to travel; empty for those of the plant, and where the shop says nothing of it. No
// longer than the plant's longest shift.
std::vector<plan::Travel> travel_of(const ShopAhead& shop, const PlantSlots& slots, catalogue::Skill skill);

// Hours of the way to a visit in which the outside service does something; 0 where none are said.
double way_hours(const ShopAhead& shop);

// Whether any of the tasks is the outside service's.
bool needs_visit(const AgreedStop& stop);

// The other machines, by their keys, for which a crew that travels comes in that slot of the plan as well, if it comes
// to this machine then; in the plan's order, each once.
std::vector<std::string> machines_visited_too(const plan::Instance& instance, const plan::StopPlan& plan,
                                              const std::string& machine, PlantSlot slot);

}  // namespace hw::proposal
