#include "src/proposal/agreed_limits.h"

#include <algorithm>

#include "src/proposal/crew_tables.h"
#include "src/proposal/outside_visits.h"

namespace hw::proposal {
namespace {

using catalogue::EnergyState;
using catalogue::Skill;

constexpr double rounding_hours = 1e-6;

double standing_hours_of(const ShopAhead& shop, const AgreedStop& stop) {
  double hours = 0;
  EnergyState strictest = EnergyState::in_production;
  for (const AgreedTask& task : stop.tasks) {
    strictest = std::max(strictest, task.energy);
    if (task.energy != EnergyState::in_production) hours += task.standing_minutes.value_or(task.minutes) / 60;
  }
  if (strictest == EnergyState::isolated) hours += shop.stopping.isolated.hours;
  if (strictest == EnergyState::powered_at_rest) hours += shop.stopping.powered_at_rest.hours;
  return hours;
}

}  // namespace

AgreedLimits::AgreedLimits(const ShopAhead& shop, const PlantSlots& slots) : shop_(shop), slots_(slots) {
  for (const AgreedStop& stop : shop.agreed) {
    const auto shift = slots.shift_of(stop.on, stop.shift);
    if (!shift) continue;
    const PlantSlot slot{slots.day_of(stop.on), *shift};
    const Skill outside = Skill::outside_service;
    if (needs_visit(stop) && !crew_hours_[slot].count(outside)) crew_hours_[slot][outside] = way_hours(shop);
    for (const AgreedTask& task : stop.tasks) crew_hours_[slot][task.skill] += task.minutes / 60;
    standing_hours_[{stop.machine, slot}] += standing_hours_of(shop, stop);
    if (standing_hours_of(shop, stop) > 0) down_[{stop.cell, slot}].insert(stop.machine);
  }
}

bool AgreedLimits::is_held(const AgreedStop& stop) const {
  const auto& blackouts = shop_.stopping.blackouts;
  return std::any_of(blackouts.begin(), blackouts.end(), [&](const catalogue::Blackout& one) {
    const bool is_of_it = one.machine ? *one.machine == stop.machine : *one.cell == stop.cell;
    return is_of_it && one.from <= stop.on && stop.on <= one.until;
  });
}

bool AgreedLimits::has_crews(PlantSlot slot) const {
  const auto wanted = crew_hours_.find(slot);
  if (wanted == crew_hours_.end()) return true;
  return std::all_of(wanted->second.begin(), wanted->second.end(), [&](const auto& one) {
    const CrewTime time = crew_time(shop_, slots_, one.first, slot);
    return one.second <= time.hours + time.overtime + rounding_hours;
  });
}

bool AgreedLimits::has_cell_room(const AgreedStop& stop, PlantSlot slot) const {
  const auto& cells = shop_.cells;
  const auto cell = std::find_if(cells.begin(), cells.end(), [&](const auto& one) { return one.key == stop.cell; });
  if (cell == cells.end() || !cell->max_down) return true;
  const auto down = down_.find({stop.cell, slot});
  return down == down_.end() || static_cast<int>(down->second.size()) <= *cell->max_down;
}

bool AgreedLimits::has_room(const AgreedStop& stop, PlantSlot slot) const {
  const auto hours = standing_hours_.find({stop.machine, slot});
  const double room = slots_.shifts()[static_cast<std::size_t>(slot.shift)].hours;
  return hours == standing_hours_.end() || hours->second <= room + rounding_hours;
}

bool AgreedLimits::allows(const AgreedStop& stop, PlantSlot slot, const plan::Task& task) const {
  if (shop_.calendar.is_closed(stop.on) || !slots_.shift_of(stop.on, stop.shift)) return false;
  if (task.state == plan::EnergyState::running) return slots_.works(slot.day, slot.shift) && has_crews(slot);
  return !is_held(stop) && has_room(stop, slot) && has_crews(slot) && has_cell_room(stop, slot);
}

}  // namespace hw::proposal
