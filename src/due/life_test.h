#pragma once
// Histories for the tests of forecasts, as a picture: one mark a day, a digit for the use, '.' for an unknown day,
// ends the day before 2026-03-02, a Monday.

#include <string>
#include <string_view>

#include "src/due/daily_use.h"

namespace hw::due {

inline const LocalDate monday = LocalDate::of(2026, 3, 2);

inline UseHistory history_of(std::string_view picture) {
  UseHistory history{monday, {}, {}};
  const int size = static_cast<int>(picture.size());
  for (int n = 0; n < size; ++n) {
    const char mark = picture[static_cast<std::size_t>(n)];
    if (mark != '.') history.days.push_back({monday - (size - n), static_cast<double>(mark - '0')});
  }
  return history;
}

inline std::string times(int count, std::string_view week) {
  std::string all;
  for (int n = 0; n < count; ++n) all += week;
  return all;
}

}  // namespace hw::due
