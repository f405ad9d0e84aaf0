// The sentence that says what a forecast rests on.

#include <fmt/format.h>

#include "src/due/use_forecast.h"

namespace hw::due {
namespace {

std::string days_text(const UseWorking& w) {
  const std::string unknown = w.unknown_days > 0 ? fmt::format(" ({} more are unknown)", w.unknown_days) : "";
  return fmt::format("{} days of use from {} to {}{}", w.known_days, print(w.first_on), print(w.last_known_on),
                     unknown);
}

std::string level_text(const UseWorking& w) {
  const LevelAhead& month = w.ahead[1];
  return fmt::format(
      "expected {:.4g} a day over the next {} days, give or take {:.2g}; so far {:.4g} a day on the mean",
      month.per_day, month.days, month.spread, w.mean_per_day);
}

std::string weekday_text(const WeekdayShares& shares) {
  constexpr std::array<const char*, 7> names = {"Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"};
  std::string text = "weekdays in percent of the mean day:";
  for (std::size_t day = 0; day < 7; ++day) text += fmt::format(" {} {:.0f}", names[day], 100 * shares[day]);
  return text;
}

}  // namespace

std::string UseForecast::basis() const {
  if (working_.used <= 0 && !working_.is_lent) return days_text(working_) + ", all without use: never due by use";
  std::string text = days_text(working_) + "; " + level_text(working_) + "; " + weekday_text(working_.weekdays.shares);
  if (working_.season_weight > 0.5) text += "; with a yearly season";
  if (working_.idle_days > 4) text += fmt::format("; without use on the last {} working days", working_.idle_days);
  if (working_.is_lent) text += "; what like machines do is taken in";
  return text;
}

}  // namespace hw::due
