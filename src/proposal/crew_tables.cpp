#include "src/proposal/crew_tables.h"

#include <algorithm>
#include <array>

#include "src/proposal/outside_visits.h"

namespace hw::proposal {
namespace {

using catalogue::Skill;

constexpr std::array skills{Skill::machine_operator, Skill::technician, Skill::outside_service};
constexpr double operators_share = 0.25;  // of a shift, where the shop says nothing: they run machines

const catalogue::Crew* told_crew(const ShopAhead& shop, Skill skill) {
  const auto& crews = shop.stopping.crews;
  const auto told = std::find_if(crews.begin(), crews.end(), [&](const auto& one) { return one.skill == skill; });
  return told == crews.end() ? nullptr : &*told;
}

bool names_weekday(const catalogue::CrewHours& row, LocalDate day) {
  return std::find(row.weekdays.begin(), row.weekdays.end(), iso_weekday(day)) != row.weekdays.end();
}

// What the shop says of the crew in that slot; one person in each shift of the plant where it says nothing.
catalogue::CrewHours hours_in(const ShopAhead& shop, const PlantSlots& slots, Skill skill, PlantSlot slot) {
  const LocalDate day = slots.date_of(slot.day);
  if (const catalogue::Crew* told = told_crew(shop, skill)) {
    for (const catalogue::CrewHours& row : told->hours) {
      if (names_weekday(row, day) && slots.shift_of(day, row.shift) == slot.shift) return row;
    }
    return {};
  }
  catalogue::CrewHours row;
  const bool is_weekend = shop.calendar.shifts.empty() && iso_weekday(day) > 5;
  if (!slots.works(slot.day, slot.shift) || is_weekend) return row;
  const double length = std::min(8.0, slots.shifts()[static_cast<std::size_t>(slot.shift)].hours);
  row.hours = length * (skill == Skill::machine_operator ? operators_share : 1);
  return row;
}

bool has_skill(const ShopAhead& shop, const std::string& person, Skill skill) {
  return std::any_of(shop.people.begin(), shop.people.end(),
                     [&](const auto& one) { return one.name == person && one.skill == skill; });
}

double persons_of(const ShopAhead& shop, Skill skill) {
  const auto count =
      std::count_if(shop.people.begin(), shop.people.end(), [&](const auto& one) { return one.skill == skill; });
  return std::max(1.0, static_cast<double>(count));
}

// Which part of the crew is away on that day, 0 to 1.
double share_away(const ShopAhead& shop, Skill skill, LocalDate day) {
  double share = 0;
  for (const catalogue::Absence* absence : absences_on(shop, skill, day)) {
    share += absence->skill ? 1 : 1 / persons_of(shop, skill);
  }
  return std::min(1.0, share);
}

plan::Crew crew_of(const ShopAhead& shop, const PlantSlots& slots, Skill skill) {
  plan::Crew crew;
  crew.id = word_of(skill);
  crew.skill = crew.id;
  const auto table = [&](double catalogue::CrewHours::*field) {
    return slots.week([&](PlantSlot slot) { return hours_in(shop, slots, skill, slot).*field; });
  };
  crew.hours = table(&catalogue::CrewHours::hours);
  crew.overtime_hours = table(&catalogue::CrewHours::overtime);
  crew.premium_per_hour = table(&catalogue::CrewHours::premium_per_hour);
  crew.overtime_cost_per_hour = shop.stopping.overtime_per_hour;
  if (auto travel = travel_of(shop, slots, skill); !travel.empty()) crew.travel = std::move(travel);
  return crew;
}

// Days on which the whole crew is away; of the other absences the hours that are missing in each shift.
void add_absences(plan::Crew& crew, const ShopAhead& shop, const PlantSlots& slots, Skill skill, const DaySpan& span) {
  std::vector<plan::Absence> absences;
  for (int day = 0; day < span.days; ++day) {
    const double away = share_away(shop, skill, slots.date_of(day));
    if (day < span.first || away >= 1) {
      crew.days_off.push_back(day);
      continue;
    }
    for (int shift = 0; away > 0 && shift < static_cast<int>(slots.shifts().size()); ++shift) {
      const double missing = away * hours_in(shop, slots, skill, {day, shift}).hours;
      if (missing > 0) absences.push_back({day, shift, missing});
    }
  }
  if (!absences.empty()) crew.absent = std::move(absences);
}

}  // namespace

std::vector<const catalogue::Absence*> absences_on(const ShopAhead& shop, Skill skill, LocalDate day) {
  std::vector<const catalogue::Absence*> found;
  for (const catalogue::Absence& absence : shop.stopping.absences) {
    if (day < absence.from || absence.until < day) continue;
    if (absence.skill ? *absence.skill == skill : has_skill(shop, *absence.person, skill)) found.push_back(&absence);
  }
  return found;
}

CrewTime crew_time(const ShopAhead& shop, const PlantSlots& slots, Skill skill, PlantSlot slot) {
  const LocalDate day = slots.date_of(slot.day);
  const catalogue::CrewHours row = hours_in(shop, slots, skill, slot);
  const double there = shop.calendar.is_closed(day) ? 0 : 1 - share_away(shop, skill, day);
  return {row.hours * there, there > 0 ? row.overtime : 0, row.premium_per_hour};
}

std::vector<plan::Crew> crews_of(const ShopAhead& shop, const PlantSlots& slots, const DaySpan& span) {
  std::vector<plan::Crew> crews;
  for (const Skill skill : skills) {
    crews.push_back(crew_of(shop, slots, skill));
    add_absences(crews.back(), shop, slots, skill, span);
  }
  return crews;
}

}  // namespace hw::proposal
