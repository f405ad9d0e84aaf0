#pragma once
// Which agreed stops a plan can keep: people may agree on one against a limit, and it stands all the same.

#include <map>
#include <set>
#include <string>

#include "src/plan/instance.h"
#include "src/proposal/plant_slots.h"
#include "src/proposal/shop_ahead.h"

namespace hw::proposal {

class AgreedLimits {
 public:
  AgreedLimits(const ShopAhead& shop, const PlantSlots& slots);

  // Whether the task can be in that agreed stop by the limits that a plan keeps: the plant is open, nobody holds the
  // machine, shift, crews and cell have room for all that is agreed then; and what needs the machine to produce is in a
  // shift in which it does.
  bool allows(const AgreedStop& stop, PlantSlot slot, const plan::Task& task) const;

 private:
  bool has_room(const AgreedStop& stop, PlantSlot slot) const;
  bool is_held(const AgreedStop& stop) const;
  bool has_crews(PlantSlot slot) const;
  bool has_cell_room(const AgreedStop& stop, PlantSlot slot) const;

  const ShopAhead& shop_;
  const PlantSlots& slots_;
  std::map<PlantSlot, std::map<catalogue::Skill, double>> crew_hours_;
  std::map<std::pair<std::string, PlantSlot>, std::set<std::string>> down_;  // [cell, slot]: machines
  std::map<std::pair<std::string, PlantSlot>, double> standing_hours_;       // [machine, slot]
};

}  // namespace hw::proposal
