#include "src/proposal/plant_slots.h"

#include <algorithm>

namespace hw::proposal {
namespace {

constexpr int day_minutes = 24 * 60;

plan::Shift plan_shift(const catalogue::Shift& shift) {
  const int length = (shift.ends_minute - shift.begins_minute + day_minutes) % day_minutes;
  return {shift.name, shift.begins_minute / 60.0, (length == 0 ? day_minutes : length) / 60.0};
}

bool works_on_weekday(const catalogue::Shift& shift, int weekday) {
  return std::find(shift.weekdays.begin(), shift.weekdays.end(), weekday) != shift.weekdays.end();
}

}  // namespace

PlantSlots::PlantSlots(const catalogue::PlantCalendar& calendar, LocalDate first_day)
    : calendar_(calendar), first_day_(first_day) {
  for (const catalogue::Shift& shift : calendar_.shifts) shifts_.push_back(plan_shift(shift));
  if (shifts_.empty()) shifts_.push_back({"", 0, 24});
}

std::optional<int> PlantSlots::shift_of(LocalDate date, std::string_view name) const {
  std::optional<int> found;
  for (int i = 0; i < static_cast<int>(shifts_.size()); ++i) {
    if (shifts_[static_cast<std::size_t>(i)].name != name) continue;
    if (works(day_of(date), i)) return i;
    if (!found) found = i;
  }
  return found;
}

bool PlantSlots::works(int day, int shift) const {
  if (calendar_.shifts.empty()) return true;
  return works_on_weekday(calendar_.shifts[static_cast<std::size_t>(shift)], iso_weekday(date_of(day)));
}

Instant PlantSlots::begins_at(PlantSlot slot) const {
  if (calendar_.shifts.empty()) return calendar_.zone.begin_of(date_of(slot.day));
  return calendar_.zone.at(date_of(slot.day), calendar_.shifts[static_cast<std::size_t>(slot.shift)].begins_minute);
}

}  // namespace hw::proposal
