#pragma once
// A plant's shifts as slots: day 0 is the day on which the plan begins, whatever its weekday. Tables by weekday, which
// the planning of stops reads Monday first, are therefore turned so that their first row is that day's.
//
// A plant without shifts has one a day, without a name, that lasts 24 h. Of several shifts of one name the one that
// works on a weekday is meant, else the first: people may come in for a stop when the plant does not work.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "src/catalogue/plant_calendar.h"
#include "src/plan/instance.h"

namespace hw::proposal {

struct PlantSlot {
  int day = 0;
  int shift = 0;
  auto operator<=>(const PlantSlot&) const = default;
};

class PlantSlots {
 public:
  PlantSlots(const catalogue::PlantCalendar& calendar, LocalDate first_day);

  LocalDate first_day() const { return first_day_; }
  LocalDate date_of(int day) const { return first_day_ + day; }
  int day_of(LocalDate date) const { return date - first_day_; }
  // In the order of the calendar.
  const std::vector<plan::Shift>& shifts() const { return shifts_; }
  // The shift of that name on that date; nothing where the plant has none.
  std::optional<int> shift_of(LocalDate date, std::string_view name) const;
  // Whether the plant works then, closed days aside.
  bool works(int day, int shift) const;
  // When the shift begins on that day, by the clock on the wall.
  Instant begins_at(PlantSlot slot) const;

  // A table of one number for each slot of a week, its first row that of the first day.
  template <class NumberOf>
  auto week(NumberOf number_of) const {
    plan::WeekTable<decltype(number_of(PlantSlot{}))> table(7);
    for (int day = 0; day < 7; ++day) {
      for (int shift = 0; shift < static_cast<int>(shifts_.size()); ++shift) {
        table[static_cast<std::size_t>(day)].push_back(number_of(PlantSlot{day, shift}));
      }
    }
    return table;
  }

 private:
  catalogue::PlantCalendar calendar_;
  LocalDate first_day_;
  std::vector<plan::Shift> shifts_;
};

}  // namespace hw::proposal
