#include "src/catalogue/plant_calendar.h"

#include <algorithm>

namespace hw::catalogue {
namespace {

constexpr int days_ahead_max = 366;
constexpr int days_back_max = 14;

bool has(const std::vector<int>& weekdays, int weekday) {
  return std::find(weekdays.begin(), weekdays.end(), weekday) != weekdays.end();
}

}  // namespace

bool PlantCalendar::is_closed(LocalDate day) const {
  return std::any_of(closed.begin(), closed.end(), [&](const ClosedDay& one) { return one.on == day; });
}

bool PlantCalendar::works_on(LocalDate day) const {
  if (is_closed(day)) return false;
  if (shifts.empty()) return true;
  const int weekday = iso_weekday(day);
  return std::any_of(shifts.begin(), shifts.end(), [&](const Shift& shift) { return has(shift.weekdays, weekday); });
}

LocalDate PlantCalendar::next_working_day(LocalDate day) const {
  for (int ahead = 1; ahead <= days_ahead_max; ++ahead) {
    if (works_on(day + ahead)) return day + ahead;
  }
  return day + 1;
}

std::vector<ShiftTurn> PlantCalendar::turns_on(LocalDate day) const {
  std::vector<ShiftTurn> turns;
  if (is_closed(day)) return turns;
  for (const Shift& shift : shifts) {
    if (!has(shift.weekdays, iso_weekday(day))) continue;
    const LocalDate end_day = shift.ends_minute > shift.begins_minute ? day : day + 1;
    turns.push_back({&shift, day, zone.at(day, shift.begins_minute), zone.at(end_day, shift.ends_minute)});
  }
  std::sort(turns.begin(), turns.end(), [](const auto& a, const auto& b) { return a.begins_at < b.begins_at; });
  return turns;
}

std::optional<ShiftTurn> PlantCalendar::turn_at_or_before(Instant at) const {
  const LocalDate today = zone.date_of(at);
  for (int back = 0; back <= days_back_max; ++back) {
    const auto turns = turns_on(today - back);
    const auto found =
        std::find_if(turns.rbegin(), turns.rend(), [&](const auto& turn) { return turn.begins_at <= at; });
    if (found != turns.rend()) return *found;
  }
  return std::nullopt;
}

std::optional<ShiftTurn> PlantCalendar::turn_after(Instant at) const {
  const LocalDate today = zone.date_of(at);
  for (int ahead = 0; ahead <= days_ahead_max; ++ahead) {
    const auto turns = turns_on(today + ahead);
    const auto found = std::find_if(turns.begin(), turns.end(), [&](const auto& turn) { return turn.begins_at > at; });
    if (found != turns.end()) return *found;
  }
  return std::nullopt;
}

}  // namespace hw::catalogue
