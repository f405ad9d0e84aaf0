#pragma once
// When a plant works: its zone, its shifts by weekday, its closed days.

#include <optional>
#include <string>
#include <vector>

#include "libs/values/zone.h"

namespace hw::catalogue {

struct Shift {
  std::string name;
  int begins_minute = 0;      // from local midnight, 0 to 1,439
  int ends_minute = 0;        // at or before the beginning: ends on the next day
  std::vector<int> weekdays;  // ISO, 1 Monday to 7 Sunday, of the day on which it begins
};

struct ClosedDay {
  LocalDate on;
  std::string why;
};

// One shift of one day, [begins_at, ends_at).
struct ShiftTurn {
  const Shift* shift = nullptr;
  LocalDate on;
  Instant begins_at;
  Instant ends_at;
};

struct PlantCalendar {
  Zone zone = Zone::utc();
  std::vector<Shift> shifts;
  std::vector<ClosedDay> closed;

  bool is_closed(LocalDate day) const;
  // True where at least one shift begins on that day; without shifts every day that is not closed.
  bool works_on(LocalDate day) const;
  // The first day after `day` on which the plant works; `day` + 1 where none follows within a year.
  LocalDate next_working_day(LocalDate day) const;
  // The turns that begin on that day, in order of time.
  std::vector<ShiftTurn> turns_on(LocalDate day) const;
  // The turn that runs at that moment, else the last one that began before it within two weeks.
  std::optional<ShiftTurn> turn_at_or_before(Instant at) const;
  // The first turn that begins after that moment, within a year.
  std::optional<ShiftTurn> turn_after(Instant at) const;
};

}  // namespace hw::catalogue
