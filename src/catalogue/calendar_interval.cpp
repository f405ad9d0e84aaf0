#include "src/catalogue/calendar_interval.h"

#include <array>
#include <charconv>

namespace hw::catalogue {
namespace {

constexpr int count_max = 1000;
constexpr int years_max = 100;  // a thousand would lead beyond what an Instant can hold
// In the order of Unit.
constexpr std::array<std::string_view, 6> unit_words{"start-up", "shift", "day", "week", "month", "year"};

int count_max_of(CalendarInterval::Unit unit) {
  if (unit == CalendarInterval::Unit::start_up) return 1;
  return unit == CalendarInterval::Unit::year ? years_max : count_max;
}

}  // namespace

Result<CalendarInterval> parse_calendar_interval(std::string_view text) {
  CalendarInterval interval;
  const char* end = text.data() + text.size();
  const auto [rest, error] = std::from_chars(text.data(), end, interval.count);
  if (error == std::errc{} && interval.count >= 1 && interval.count <= count_max && rest != end && *rest == ' ') {
    std::string_view word{rest + 1, static_cast<std::size_t>(end - rest - 1)};
    if (word.ends_with('s')) word.remove_suffix(1);
    for (std::size_t i = 0; i < unit_words.size(); ++i) {
      interval.unit = static_cast<CalendarInterval::Unit>(i);
      if (word != unit_words[i]) continue;
      if (interval.count <= count_max_of(interval.unit)) return interval;
    }
  }
  return refuse(ErrorCode::bad_input,
                "\"{}\" is no calendar interval; it looks like 1 start-up, 1 shift, 1 day, 2 weeks, 3 months, 1 year "
                "(1 to {}; years to {})",
                text.substr(0, 40), count_max, years_max);
}

std::string print(const CalendarInterval& interval) {
  return fmt::format("{} {}{}", interval.count, unit_words[static_cast<std::size_t>(interval.unit)],
                     interval.count == 1 ? "" : "s");
}

}  // namespace hw::catalogue
